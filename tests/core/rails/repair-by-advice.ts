import { supposedReading } from '../../../core/rails/count-advised.ts';
import { USUAL_NEXT } from '../../../core/rails/next-measurements.ts';
import type { RailModel } from '../../../core/rails/rail-model.ts';
import type { JudgedReading } from '../../../core/rails/rail-reading.ts';
import { walkRails } from '../../../core/rails/walk-rails.ts';
import { trueFault, truthOf } from './truth.ts';

/** Walks by the advice, repairs what leads, and walks again, as a technician does. */
export function repairByAdvice(
  model: RailModel,
  faults: readonly string[],
): { isFixed: boolean; visits: number } {
  let left = [...faults];
  for (let visit = 1; visit <= 3; visit++) {
    const judged: JudgedReading[] = [];
    let walk = walkRails(model, judged, USUAL_NEXT);
    while (!walk.isSettled && judged.length < 60) {
      const [next] = walk.next;
      if (next === undefined) break;
      const verdict = truthOf(model.board, left.map(trueFault))(next.measurement.key);
      judged.push(supposedReading(model, next.measurement, verdict));
      walk = walkRails(model, judged, USUAL_NEXT);
    }
    const leading = walk.suspects.slice(0, 2).flatMap((suspect) => suspect.faults);
    const found = left.filter((key) => leading.some((fault) => fault.key === key));
    left = left.filter((key) => !found.includes(key));
    if (left.length === 0) return { isFixed: true, visits: visit };
    if (found.length === 0) break;
  }
  return { isFixed: false, visits: 3 };
}
