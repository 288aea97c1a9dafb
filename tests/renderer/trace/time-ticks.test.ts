import { describe, expect, it } from 'vitest';
import { clockWords, timeTicks } from '../../../renderer/trace/time-ticks.ts';

describe('times of a run', () => {
  it('are written as on a stopwatch', () => {
    expect(clockWords(0)).toBe('0\u00a0s');
    expect(clockWords(42_340, 2)).toBe('4.23\u00a0s');
    expect(clockWords(650_000)).toBe('1:05');
    expect(clockWords(650_500, 1)).toBe('1:05.1');
    expect(clockWords(73_900_000)).toBe('2:03:10');
  });

  it('never show sixty seconds beside a minute', () => {
    expect(clockWords(1_199_990)).toBe('2:00');
  });

  it('stand at round times, no more than asked for', () => {
    expect(timeTicks({ fromTick: 12_345, toTick: 312_345 }, 6)).toEqual([
      50_000, 100_000, 150_000, 200_000, 250_000, 300_000,
    ]);
    expect(timeTicks({ fromTick: 0, toTick: 8 * 3600 * 10_000 }, 8).length).toBeLessThanOrEqual(9);
  });
});
