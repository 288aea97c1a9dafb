import { describe, expect, it } from 'vitest';
import { supposedReading } from '../../../core/rails/count-advised.ts';
import { NO_PRIOR } from '../../../core/rails/fault.ts';
import { USUAL_NEXT } from '../../../core/rails/next-measurements.ts';
import { prepareRails, type RailModel } from '../../../core/rails/rail-model.ts';
import type { JudgedReading } from '../../../core/rails/rail-reading.ts';
import { walkRails } from '../../../core/rails/walk-rails.ts';
import { randomBoard, seeded } from './random-board.ts';
import { trueFault, truthOf } from './truth.ts';

/** Walks by the advice, repairs what leads, and walks again, as a technician does. */
function repair(model: RailModel, faults: readonly string[]): { isFixed: boolean; visits: number } {
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

describe('two faults at once', () => {
  it('finds both within two suspects a walk on at least nine of ten sampled boards', () => {
    let fixed = 0;
    let all = 0;
    for (let seed = 1; seed <= 60; seed++) {
      const model = prepareRails(randomBoard(10, seed), null, { ...NO_PRIOR, liquid: true });
      const random = seeded(seed * 31);
      const pick = () => model.faults[Math.floor(random() * model.faults.length)]?.key ?? '';
      const pair = [pick(), pick()];
      if (pair[0] === pair[1]) continue;
      all += 1;
      if (repair(model, pair).isFixed) fixed += 1;
    }
    console.log(`two faults: ${fixed} of ${all} repaired`);
    expect(all).toBeGreaterThan(50);
    expect(fixed / all).toBeGreaterThanOrEqual(0.9);
  });
});
