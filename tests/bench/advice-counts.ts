import { entropyBits } from '../../core/finding/information.ts';
import { NO_PRIOR } from '../../core/rails/fault.ts';
import { USUAL_NEXT } from '../../core/rails/next-measurements.ts';
import { prepareRails, type RailModel } from '../../core/rails/rail-model.ts';
import { leastMeanCost } from '../core/rails/optimum.ts';
import { randomBoard, seeded } from '../core/rails/random-board.ts';
import { repairByAdvice } from '../core/rails/repair-by-advice.ts';
import { advised, halving, inOrder, outcomeTable, walkTo } from '../core/rails/walkers.ts';
import { type Measure, measure } from './measure.ts';

const SIZES = [
  { rails: 10, boards: 6, faults: 40 },
  { rails: 40, boards: 3, faults: 24 },
  { rails: 100, boards: 1, faults: 24 },
  { rails: 200, boards: 1, faults: 12 },
] as const;
const SMALL_TREES = 16;
const DOUBLES = 40;
const EVEN = { source: 1, short: 1, joined: 1, enable: 1, link: 1 };
const NEXT = { ...USUAL_NEXT, changeOverEffort: 0 };

const mean = (values: readonly number[]) =>
  values.reduce((sum, value) => sum + value, 0) / values.length;

/** How many measurements the advice takes to isolate faults, beside other ways and the optimum. */
export async function measureAdviceCounts(): Promise<readonly Measure[]> {
  const found: Measure[] = [];
  for (const { rails, boards, faults } of SIZES) {
    const counts = { advice: [] as number[], order: [] as number[], halving: [] as number[] };
    for (let seed = 1; seed <= boards; seed += 1) {
      const model = evenModel(rails, seed);
      const table = outcomeTable(model);
      const random = seeded(seed);
      for (let i = 0; i < faults; i += 1) {
        const fault = Math.floor(random() * model.faults.length);
        counts.advice.push(walkTo(fault, table, advised(model, NEXT)).count);
        counts.order.push(walkTo(fault, table, inOrder(model.board, table)).count);
        counts.halving.push(walkTo(fault, table, halving(model.board, table)).count);
      }
    }
    const advice = mean(counts.advice);
    const say = (other: string) => `measurements to one fault, ${rails} rails, against ${other}`;
    const unit = 'measurements';
    found.push(
      measure(say('walking in order'), advice, unit, 'fewer', {
        name: 'walking in order',
        value: mean(counts.order),
      }),
      measure(say('halving by count'), advice, unit, 'fewer', {
        name: 'halving by count',
        value: mean(counts.halving),
      }),
    );
  }
  return [...found, overOptimum(), doubleFaults(), publishedEntropy()];
}

function evenModel(rails: number, seed: number): RailModel {
  const prior = { ...NO_PRIOR, kindWeights: EVEN, elsewhere: 0 };
  return prepareRails(randomBoard(rails, seed), null, prior);
}

function overOptimum(): Measure {
  const pairs = Array.from({ length: SMALL_TREES }, (_, seed) => {
    const model = evenModel(4 + (seed % 2), seed + 1);
    const table = outcomeTable(model);
    const ones = table.keys.map(() => 1);
    const best = leastMeanCost(
      table.outcomes,
      model.faults.map(() => 1),
      ones,
    );
    const ours = model.faults.map((_, at) => walkTo(at, table, advised(model, NEXT)).count);
    return [mean(ours), best] as const;
  });
  return measure(
    'measurements to one fault, small trees, against the optimum',
    mean(pairs.map(([ours]) => ours)),
    'measurements',
    'at most 1.1 times the optimum',
    { name: 'exhaustive search', value: mean(pairs.map(([, best]) => best)) },
  );
}

function doubleFaults(): Measure {
  let fixed = 0;
  let all = 0;
  for (let seed = 1; seed <= DOUBLES; seed += 1) {
    const model = prepareRails(randomBoard(10, seed), null, { ...NO_PRIOR, liquid: true });
    const random = seeded(seed * 31);
    const pick = () => model.faults[Math.floor(random() * model.faults.length)]?.key ?? '';
    const pair = [pick(), pick()];
    if (pair[0] === pair[1]) continue;
    all += 1;
    if (repairByAdvice(model, pair).isFixed) fixed += 1;
  }
  return measure('boards with two faults repaired by the advice', fixed / all, 'share', '0.9 up');
}

function publishedEntropy(): Measure {
  return measure(
    'entropy of 9 yes and 5 no (the weather example of decision-tree textbooks)',
    entropyBits([9, 5]),
    'bits',
    'as published',
    { name: 'as published', value: 0.94 },
  );
}
