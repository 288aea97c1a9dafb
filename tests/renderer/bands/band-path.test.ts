import { describe, expect, it } from 'vitest';
import { bandPaths } from '../../../renderer/bands/band-path.ts';

const plane = { x: (tick: number) => tick / 1000, y: (amps: number) => 100 - 100 * amps };
const column = (...values: number[]) => Float64Array.from(values);

describe('bandPaths', () => {
  it('draws an area between two edges, counted from where the band begins', () => {
    const variant = {
      low: column(0.1, 0.2),
      middle: column(0.2, 0.3),
      high: column(0.3, 0.4),
      runIds: [],
    };
    const { area, edges } = bandPaths(variant, 10_000, 1, plane);
    expect(edges).toBe('M11 70L13 60M11 90L13 80');
    expect(area).toBe('M11 70L13 60L13 80L11 90Z');
  });

  it('turns watts into amps, never goes below nothing, and breaks where no good run reaches', () => {
    const nan = Number.NaN;
    const variant = {
      low: column(-1, -1, nan, 2, 2),
      middle: column(0, 0, nan, 3, 3),
      high: column(1, 1, nan, 4, 4),
      runIds: [],
    };
    const { edges } = bandPaths(variant, 0, 0.1, plane);
    expect(edges).toBe('M1 90L3 90M1 100L3 100M7 60L9 60M7 80L9 80');
  });
});
