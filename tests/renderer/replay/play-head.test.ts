import { describe, expect, it } from 'vitest';
import { advance, otherSpeed } from '../../../renderer/replay/play-head.ts';

describe('the head of a replay', () => {
  it('moves with the clock, times its speed', () => {
    expect(advance(0, 1, 500, 1e9)).toBe(5_000);
    expect(advance(10_000, 32, 1000, 1e9)).toBe(330_000);
  });

  it('stops at the end of the run', () => {
    expect(advance(99_000, 32, 1000, 100_000)).toBe(100_000);
  });

  it('steps through the speeds and stays at either end', () => {
    expect(otherSpeed(1, 1)).toBe(2);
    expect(otherSpeed(32, 1)).toBe(32);
    expect(otherSpeed(1, -1)).toBe(1);
  });
});
