import { describe, expect, it } from 'vitest';
import { drawingIntervalMs } from '../../../renderer/trace/drawing-interval.ts';

const S = 10_000;

describe('how often the trace is drawn', () => {
  it('is 25 times a second while a second is many columns wide', () => {
    expect(drawingIntervalMs({ fromTick: 0, toTick: 30 * S }, 900)).toBe(40);
  });

  it('is as often as the curve moves, half a column at a time', () => {
    expect(drawingIntervalMs({ fromTick: 0, toTick: 120 * S }, 900)).toBeCloseTo(66.7, 1);
  });

  it('is still more than twice a second over eight hours', () => {
    expect(drawingIntervalMs({ fromTick: 0, toTick: 8 * 3600 * S }, 900)).toBe(400);
  });
});
