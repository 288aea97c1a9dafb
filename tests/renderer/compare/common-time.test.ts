import { describe, expect, it } from 'vitest';
import { commonTime } from '../../../renderer/compare/common-time.ts';

describe('commonTime', () => {
  it('lays runs over one another at their zero and begins at nothing', () => {
    const time = commonTime([
      { id: 'a', zeroS: 1, durationS: 10 },
      { id: 'b', zeroS: 4, durationS: 8 },
      { id: 'c', zeroS: null, durationS: 20 },
    ]);
    expect(time.zeroTick).toBe(40_000);
    expect(time.runs).toEqual([
      { id: 'a', shiftTicks: 30_000, endTick: 130_000 },
      { id: 'b', shiftTicks: 0, endTick: 80_000 },
      { id: 'c', shiftTicks: 40_000, endTick: 240_000 },
    ]);
    expect(time.endTick).toBe(240_000);
    expect(commonTime([])).toEqual({ runs: [], zeroTick: 0, endTick: 0 });
  });
});
