import { describe, expect, it } from 'vitest';
import type { HuntPoint, HuntReading } from '../../../core/shorts/hunt.ts';
import { huntColumns } from '../../../core/shorts/hunt-columns.ts';

let made = 0;
const reading = (volts: number, amps: number): HuntReading => {
  made += 1;
  return { id: `r${made}`, volts, decimals: 6, amps, source: 'meter', takenAt: made };
};
const point = (name: string, readings: readonly HuntReading[]): HuntPoint => ({
  ...{ id: name, name, alongMm: null, onPicture: null },
  readings,
});

describe('huntColumns', () => {
  it('sorts readings by the current itself: none, the one with most points, the next', () => {
    const found = huntColumns({
      points: [
        point('A', [reading(1e-5, 0), reading(0.1, 1), reading(0.2, 2)]),
        point('B', [reading(2e-5, 0), reading(0.2, 1.02), reading(0.4, 2.01)]),
        point('C', [reading(0.3, 0.99)]),
      ],
    });
    expect(found.firstA).toBe(1);
    expect(found.secondA).toBe(2);
    expect(
      found.points.map(({ zero, first, second }) => [zero, first, second].map((r) => r?.volts)),
    ).toEqual([
      [1e-5, 0.1, 0.2],
      [2e-5, 0.2, 0.4],
      [undefined, 0.3, undefined],
    ]);
    expect(found.others).toBe(0);
  });

  it('takes what a supply shows with its output off for no current', () => {
    const found = huntColumns({ points: [point('A', [reading(1e-5, 0.0006)])] });
    expect(found).toMatchObject({ firstA: null, secondA: null });
    expect(found.points[0]?.zero).not.toBeNull();
  });

  it('counts the newest reading of a point, and keeps the one before it to tell a drift by', () => {
    const found = huntColumns({ points: [point('A', [reading(0.1, 1), reading(0.11, 1)])] });
    expect(found.points[0]?.first?.volts).toBe(0.11);
    expect(found.again).toMatchObject([{ pointId: 'A', reading: { volts: 0.1 } }]);
  });

  it('leaves readings at a third current aside and counts them', () => {
    const found = huntColumns({
      points: [
        point('A', [reading(0.1, 1), reading(0.2, 2), reading(0.4, 4)]),
        point('B', [reading(0.1, 1), reading(0.2, 2)]),
        point('C', [reading(0.1, 1)]),
      ],
    });
    expect(found).toMatchObject({ firstA: 1, secondA: 2, others: 1 });
  });

  it('has nothing to say of no readings', () => {
    expect(huntColumns({ points: [] })).toEqual({
      ...{ firstA: null, secondA: null, points: [], again: [], others: 0 },
    });
  });
});
