import { describe, expect, it } from 'vitest';
import { NO_PRIOR } from '../../../core/rails/fault.ts';
import { prepareRails } from '../../../core/rails/rail-model.ts';
import { randomBoard, seeded } from './random-board.ts';
import { repairByAdvice } from './repair-by-advice.ts';

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
      if (repairByAdvice(model, pair).isFixed) fixed += 1;
    }
    console.log(`two faults: ${fixed} of ${all} repaired`);
    expect(all).toBeGreaterThan(50);
    expect(fixed / all).toBeGreaterThanOrEqual(0.9);
  });
});
