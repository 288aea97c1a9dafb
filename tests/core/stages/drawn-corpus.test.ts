import { describe, expect, it } from 'vitest';
import { classifyTrace } from '../../../core/stages/tracker.ts';
import { type CorpusDraw, drawnCorpus } from '../../support/drawn-corpus.ts';
import { Dice } from '../../support/drawn-draws.ts';
import { StageScore } from '../../support/stage-score.ts';

// Seeds that no threshold was set by; `node tests/support/score-stages.ts` prints more.
const FIRST_SEED = 9000;

function score(draws: Iterable<CorpusDraw>, known: boolean, alike = false): StageScore {
  const total = new StageScore(alike);
  for (const c of draws) {
    const settings = known ? c.settings : { ...c.settings, runningA: null };
    const report = classifyTrace(c.draw.columns, settings);
    total.add(c.draw, report, 1 / c.hz);
    total.addSureness(c.draw, report);
  }
  return total;
}

describe('draws written from descriptions, 1 to 1,000 Hz, noise x1 to x10, 1 and 10 mA', () => {
  const withVolts = score(drawnCorpus(FIRST_SEED, 5, true), true);

  it('are named with a macro F1 of 0.97 and more when the running level is known', () => {
    expect(withVolts.macroF1(), withVolts.matrix()).toBeGreaterThan(0.97);
  });

  it('have their borders within 0.2 s or two samples in 95 % and more', () => {
    expect(withVolts.near / withVolts.boundaries).toBeGreaterThan(0.95);
  });

  it('are right as often as the confidence says, or more often', () => {
    for (const [confidence, { all, right }] of withVolts.sureness) {
      if (all < 30) continue;
      expect(right / all, `at confidence ${confidence}`).toBeGreaterThan(confidence - 0.05);
    }
  });

  it('are named as well when edges, volts and levels are less tidy', () => {
    const rough = score(drawnCorpus(FIRST_SEED, 2, true, '', true), true);
    expect(rough.macroF1(), rough.matrix()).toBeGreaterThan(0.95);
  });

  it('lose little without volts, and more without the running level, which says so', () => {
    const withoutVolts = score(drawnCorpus(FIRST_SEED, 2, false), true, true);
    expect(withoutVolts.macroF1(), withoutVolts.matrix()).toBeGreaterThan(0.92);
    const unknown = score(drawnCorpus(FIRST_SEED, 2, true), false);
    expect(unknown.macroF1(), unknown.matrix()).toBeGreaterThan(0.78);
  });

  it('score nothing like that against the labels of other draws', () => {
    const draws = [...drawnCorpus(FIRST_SEED, 1, true)];
    const dice = new Dice(1);
    const shuffled = draws.map((c) => {
      const other = dice.pick(draws).draw.labels;
      return { ...c, draw: { ...c.draw, labels: other } };
    });
    expect(score(shuffled, true).macroF1()).toBeLessThan(0.5);
  });
});
