import { supposedReading } from '../../core/rails/count-advised.ts';
import { NO_PRIOR } from '../../core/rails/fault.ts';
import { USUAL_NEXT } from '../../core/rails/next-measurements.ts';
import { usualVerdict } from '../../core/rails/outcome-odds.ts';
import { prepareRails } from '../../core/rails/rail-model.ts';
import type { JudgedReading } from '../../core/rails/rail-reading.ts';
import { walkRails } from '../../core/rails/walk-rails.ts';
import { randomBoard, seeded } from '../core/rails/random-board.ts';
import { type Measure, measure, median } from './measure.ts';

const SIZES = [50, 100, 200];
const BOARDS = 6;
const STEPS = 12;
const WARM_UP = 2;

/** Time to the next best measurement as boards grow, readings piling up, one fault each. */
export async function measureNextMeasurement(): Promise<readonly Measure[]> {
  return SIZES.flatMap(measureAt);
}

function measureAt(rails: number): Measure[] {
  const [prepared, next]: [number[], number[]] = [[], []];
  for (let board = 0; board < BOARDS + WARM_UP; board += 1) {
    let startMs = performance.now();
    const model = prepareRails(randomBoard(rails, board + 1), null, { ...NO_PRIOR, liquid: true });
    const prepareMs = performance.now() - startMs;
    const random = seeded(board);
    const truth = model.conditions[Math.floor(random() * model.conditions.length)];
    if (truth === undefined) throw new Error('a board without faults');
    const judged: JudgedReading[] = [];
    // Half of the readings go where the fault shows, so that pairs of faults are weighed too.
    const odd = model.measurements.filter((_, at) => truth[at] !== model.healthy[at]);
    for (let step = 0; step < STEPS; step += 1) {
      startMs = performance.now();
      const walk = walkRails(model, judged, USUAL_NEXT);
      const tookMs = performance.now() - startMs;
      if (board >= WARM_UP) next.push(tookMs);
      const chosen = step % 2 === 1 ? odd[step >> 1] : walk.next[0]?.measurement;
      if (chosen === undefined) break;
      const condition = truth[model.measurementAt.get(chosen.key) ?? 0] ?? 0;
      judged.push(supposedReading(model, chosen, usualVerdict(condition)));
    }
    if (board >= WARM_UP) prepared.push(prepareMs);
  }
  const sorted = [...next].sort((a, b) => a - b);
  const p95 = sorted[Math.floor(sorted.length * 0.95)] ?? 0;
  return [
    measure(`next measurement, ${rails} rails (median)`, median(next), 'ms', 'under 20'),
    measure(`next measurement, ${rails} rails (p95)`, p95, 'ms', 'under 20'),
    measure(`board of ${rails} rails prepared`, median(prepared), 'ms', 'once a board'),
  ];
}
