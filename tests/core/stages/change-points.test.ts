import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  cellsOf,
  partitionCost,
  penalisedPartition,
  penaltyFor,
} from '../../../core/stages/change-points.ts';
import { NILE, NO_STEP, ONE_STEP, R_SHIFTS } from '../../support/change-point-series.ts';

const ends = (values: readonly number[], penalty: number) =>
  penalisedPartition(cellsOf(values), penalty).ends;
const cuts = (values: readonly number[], penalty: number) => ends(values, penalty).slice(0, -1);

/** The plain quadratic search that pruning must agree with. */
function searchAll(values: readonly number[], penalty: number): number {
  const best = [-penalty];
  for (let end = 1; end <= values.length; end++) {
    let least = Number.POSITIVE_INFINITY;
    for (let start = 0; start < end; start++) {
      const part = values.slice(start, end);
      const mean = part.reduce((a, b) => a + b, 0) / part.length;
      const cost = part.reduce((a, b) => a + (b - mean) ** 2, 0);
      least = Math.min(least, best[start]! + cost + penalty);
    }
    best.push(least);
  }
  return best[values.length]!;
}

describe('the Nile at Aswan (Turing change point data set; R package strucchange)', () => {
  it('changes once, after 28 years, for any penalty between the published edges', () => {
    expect(cuts(NILE, 85199.421)).toEqual([28]);
    expect(cuts(NILE, 1237699.555)).toEqual([28]);
    expect(cuts(NILE, 1237699.556)).toEqual([]);
    expect(cuts(NILE, 85199.42)).toEqual([28, 41, 45, 47]);
  });

  it('leaves the published squares', () => {
    expect(partitionCost(cellsOf(NILE), [100])).toBeCloseTo(2835156.75, 6);
    expect(partitionCost(cellsOf(NILE), [28, 100])).toBeCloseTo(1597457.194444, 6);
    expect(partitionCost(cellsOf(NILE), [27, 100])).toBeCloseTo(1659109.479452, 5);
    expect(partitionCost(cellsOf(NILE), [28, 83, 100])).toBeCloseTo(1552923.616, 3);
  });
});

describe('the penalty sweep of the R package changepoint (its tests: crops1, crops2)', () => {
  const switches = [4.332496, 4.385247, 4.684254, 559.366988, 646.962719, 1311.335695];
  const sets = [
    [50, 96, 100, 133, 150, 159, 180],
    [50, 96, 100, 133, 150],
    [50, 100, 133, 150],
    [50, 100, 150],
    [50, 150],
    [50],
    [],
  ];
  const costs = [
    151.648442, 160.313434, 164.698681, 169.382934, 728.749922, 1375.712641, 2687.048335,
  ];

  it('gives each set between its two switching penalties', () => {
    sets.forEach((set, i) => {
      const from = i === 0 ? 4 : switches[i - 1]! + 3e-6;
      const to = i === switches.length ? 1500 : switches[i]! - 3e-6;
      expect(cuts(R_SHIFTS, from)).toEqual(set);
      expect(cuts(R_SHIFTS, to)).toEqual(set);
    });
  });

  it('gives the costs of those sets', () => {
    sets.forEach((set, i) => {
      expect(partitionCost(cellsOf(R_SHIFTS), [...set, 200])).toBeCloseTo(costs[i]!, 4);
    });
  });
});

describe('series of the Turing change point data set', () => {
  it('quality_control_2 changes once, at 97', () => {
    expect(cuts(ONE_STEP, 2 * Math.log(ONE_STEP.length))).toEqual([97]);
    expect(penalisedPartition(cellsOf(ONE_STEP), 12).cost).toBeCloseTo(297.3483, 3);
  });

  it('quality_control_5 does not change', () => {
    expect(cuts(NO_STEP, 2 * Math.log(NO_STEP.length))).toEqual([]);
  });
});

it('cuts the examples of the ruptures package where its tests do', () => {
  expect(ends([0, 0, 0, 5, 5, 5, 5, -2, -2], 0.5)).toEqual([3, 7, 9]);
  expect(ends([1, 1, 5, 5], 1)).toEqual([2, 4]);
  expect(ends(new Array<number>(20).fill(0), 1)).toEqual([20]);
  expect(ends([3.14], 1)).toEqual([1]);
  expect(ends([], 1)).toEqual([]);
});

it('is as good as the search through every partition', () => {
  const value = fc.integer({ min: -20, max: 20 }).map((x) => x / 4);
  fc.assert(
    fc.property(
      fc.array(value, { minLength: 1, maxLength: 30 }),
      fc.double({ min: 0.01, max: 50, noNaN: true }),
      (values, penalty) => {
        const found = penalisedPartition(cellsOf(values), penalty);
        const total = found.cost + penalty * (found.ends.length - 1);
        expect(total).toBeCloseTo(searchAll(values, penalty), 6);
      },
    ),
  );
});

it('treats a weighed cell as that many values', () => {
  const cells = {
    weight: Float64Array.from([40, 2, 30]),
    mean: Float64Array.from([1, 9, 1.1]),
    squares: Float64Array.from([3, 0, 2]),
  };
  const spread = [...new Array<number>(40).fill(1), 9, 9, ...new Array<number>(30).fill(1.1)];
  for (const penalty of [5, 50, 100, 200]) {
    const joined = penalisedPartition(cells, penalty);
    const plain = penalisedPartition(cellsOf(spread), penalty);
    expect(joined.ends.length).toBe(plain.ends.length);
    expect(joined.cost - 5).toBeCloseTo(plain.cost, 9);
  }
});

it('knows the penalties that R’s changepoint names', () => {
  expect(penaltyFor('aic', 100)).toBe(4);
  expect(penaltyFor('bic', 100)).toBeCloseTo(2 * Math.log(100), 12);
  expect(penaltyFor('mbic', 100)).toBeCloseTo(3 * Math.log(100), 12);
  expect(penaltyFor('hannan-quinn', 100)).toBeCloseTo(4 * Math.log(Math.log(100)), 12);
});
