import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { luFactor, luSolve } from '../../../core/bench-model/lu-solve.ts';

function solve(rows: number[][], side: number[]): number[] {
  const n = side.length;
  const matrix = Float64Array.from(rows.flat());
  const pivots = new Int32Array(n);
  const x = Float64Array.from(side);
  luFactor(matrix, n, pivots);
  luSolve(matrix, n, pivots, x);
  return [...x];
}

describe('luSolve', () => {
  it('needs its pivoting where a diagonal place is nothing', () => {
    expect(
      solve(
        [
          [0, 2, 1],
          [1, 0, 0],
          [3, 0, 4],
        ],
        [5, 1, 11],
      ),
    ).toEqual([1, 1.5, 2]);
  });

  it('gives back what any well-ruled matrix was multiplied with', () => {
    const entry = fc.double({ min: -1, max: 1, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 12 }).chain((n) =>
          fc.tuple(
            fc.array(fc.array(entry, { minLength: n, maxLength: n }), {
              minLength: n,
              maxLength: n,
            }),
            fc.array(entry, { minLength: n, maxLength: n }),
          ),
        ),
        ([rows, x]) => {
          const ruled = rows.map((row, i) =>
            row.map((a, j) => (i === j ? a + 2 * rows.length : a)),
          );
          const side = ruled.map((row) => row.reduce((sum, a, j) => sum + a * x[j]!, 0));
          for (const [i, value] of solve(ruled, side).entries()) {
            expect(value).toBeCloseTo(x[i]!, 9);
          }
        },
      ),
    );
  });
});
