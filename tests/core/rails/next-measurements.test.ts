import { describe, expect, it } from 'vitest';
import type { BoardModel } from '../../../core/rails/board-model.ts';
import { NO_PRIOR } from '../../../core/rails/fault.ts';
import { USUAL_NEXT } from '../../../core/rails/next-measurements.ts';
import { prepareRails, type RailModel } from '../../../core/rails/rail-model.ts';
import { leastMeanCost } from './optimum.ts';
import { randomBoard, seeded } from './random-board.ts';
import { advised, halving, inOrder, outcomeTable, walkTo } from './walkers.ts';

const EVEN = { source: 1, short: 1, joined: 1, enable: 1, link: 1 };
const NEXT = { ...USUAL_NEXT, changeOverEffort: 0 };
const mean = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

function prepared(board: BoardModel, kindWeights: typeof EVEN | null = EVEN): RailModel {
  return prepareRails(board, null, { ...NO_PRIOR, kindWeights, elsewhere: 0 });
}

describe('scoreMeasurements against the optimum (exhaustive search over small trees)', () => {
  it('isolates every single fault in at most 1.1 times the fewest measurements on average', () => {
    const ratios = Array.from({ length: 24 }, (_, seed) => {
      const model = prepared(randomBoard(4 + (seed % 2), seed + 1));
      const table = outcomeTable(model);
      const even = model.faults.map(() => 1);
      const best = leastMeanCost(
        table.outcomes,
        even,
        table.keys.map(() => 1),
      );
      const counts = model.faults.map((_, h) => walkTo(h, table, advised(model, NEXT)).count);
      return mean(counts) / best;
    });
    expect(Math.min(...ratios)).toBeGreaterThanOrEqual(1 - 1e-9);
    expect(mean(ratios)).toBeLessThanOrEqual(1.1);
    console.log(
      `measurements over the optimum: mean ${mean(ratios).toFixed(3)}, worst ${Math.max(...ratios).toFixed(3)}`,
    );
    expect(Math.max(...ratios)).toBeLessThanOrEqual(1.2);
  });

  it('does so in effort too, with points of uneven effort and the usual weights of faults', () => {
    const ratios = Array.from({ length: 12 }, (_, seed) => {
      const random = seeded(seed + 500);
      const plain = randomBoard(4, seed + 1);
      const board: BoardModel = {
        ...plain,
        rails: plain.rails.map((rail) => ({
          ...rail,
          points: rail.points.map((point) => ({ ...point, cost: 1 + Math.floor(random() * 4) })),
        })),
      };
      const model = prepared(board, null);
      const table = outcomeTable(model);
      const effort = new Map(model.measurements.map((each) => [each.key, each.effort]));
      const costs = table.keys.map((key) => effort.get(key) ?? 1);
      const weights = model.faults.map(({ weight }) => weight);
      const best = leastMeanCost(table.outcomes, weights, costs);
      const total = weights.reduce((sum, weight) => sum + weight, 0);
      const spent = model.faults.map((_, h) => {
        const { cost } = walkTo(h, table, advised(model, NEXT), (key) => effort.get(key) ?? 1);
        return ((weights[h] ?? 0) / total) * cost;
      });
      return spent.reduce((sum, each) => sum + each, 0) / best;
    });
    console.log(`effort over the optimum: mean ${mean(ratios).toFixed(3)}`);
    expect(mean(ratios)).toBeLessThanOrEqual(1.1);
  });
});

describe('scoreMeasurements against walking in order and halving by count', () => {
  it.each([
    [10, 4, 40],
    [40, 2, 24],
    [100, 1, 16],
    [200, 1, 8],
  ])('needs fewer measurements than both on trees of %d rails', (rails, boards, faultsEach) => {
    const counts = { advice: [] as number[], order: [] as number[], halving: [] as number[] };
    for (let seed = 1; seed <= boards; seed++) {
      const model = prepared(randomBoard(rails, seed));
      const table = outcomeTable(model);
      const random = seeded(seed);
      for (let i = 0; i < faultsEach; i++) {
        const h = Math.floor(random() * model.faults.length);
        counts.advice.push(walkTo(h, table, advised(model, NEXT)).count);
        counts.order.push(walkTo(h, table, inOrder(model.board, table)).count);
        counts.halving.push(walkTo(h, table, halving(model.board, table)).count);
      }
    }
    expect(counts.advice.every(Number.isFinite)).toBe(true);
    expect(mean(counts.advice)).toBeLessThan(mean(counts.order));
    expect(mean(counts.advice)).toBeLessThanOrEqual(mean(counts.halving));
    console.log(
      `${rails} rails: advice ${mean(counts.advice).toFixed(2)}, in order ${mean(counts.order).toFixed(2)}, halving ${mean(counts.halving).toFixed(2)}`,
    );
  });
});
