import { describe, expect, it } from 'vitest';
import { shopClock } from '../../../core/record/record-time.ts';
import { summarise } from '../../../core/record/summary.ts';
import type { Reach, StageId } from '../../../core/stages/stage.ts';
import {
  inventedJob,
  inventedWhole,
  inventRun,
  reading,
  runAfter,
  runBefore,
} from '../../support/record-job.ts';

const said = (whole = inventedWhole, runs = [runBefore(), runAfter()]) =>
  summarise(whole, runs, shopClock(60))
    .join(' ')
    .replaceAll('\u00a0', ' ')
    .replaceAll(/[\u2068\u2069]/g, '');

describe('summarise', () => {
  it('tells the owner what came in, what was found, what was done and how it ended', () => {
    expect(said()).toBe(
      'The Thistle T1 (invented) board came in on 24 Nov 2025. It wakes and runs again. ' +
        'Before the repair it took a small, steady current and nothing woke; the most that it held was 0.263 A (5.00 W). ' +
        'After the repair it reached its running draw; the most that it held was 1.210 A (23.0 W). ' +
        'One part was fitted: C214. All 3 places with an expected value read as expected at the last reading. ' +
        'One checklist step was skipped; the reason is in this record.',
    );
  });

  it('never says that it wakes when the job says otherwise', () => {
    const job = {
      ...inventedJob,
      outcome: { ...inventedJob.outcome!, verdict: 'not-repaired' as const },
    };
    expect(said({ ...inventedWhole, job })).toMatch(/It could not be repaired/);
    expect(said({ ...inventedWhole, job })).not.toMatch(/wakes/);
  });

  it('counts the places that still read wrong', () => {
    const readings = [
      reading({ place: 'a', value: 1, expectedLow: 0, expectedHigh: 2 }),
      reading({ place: 'b', value: 5, expectedLow: 0, expectedHigh: 2 }),
    ];
    expect(said({ ...inventedWhole, readings, items: [] })).toMatch(
      /Of 2 places .*, 1 read as expected/,
    );
  });

  const reached = (stage: Reach['stage'], share: number | null, shown: StageId) => {
    const run = inventRun({ role: 'before' }, [
      { stage: shown, forS: 5, amps: 1, volts: 0.15, reason: '' },
    ]);
    const reach = { ...run.report.reach, stage, share };
    return said(inventedWhole, [{ ...run, report: { ...run.report, reach } }]);
  };

  it('says of a short that the supply held its limit, not that the board took nothing', () => {
    expect(reached('no-draw', null, 'limited')).toMatch(/the supply held its current at the limit/);
    expect(reached('no-draw', null, 'limited')).not.toMatch(/took nothing/);
    expect(reached('no-draw', null, 'no-draw')).toMatch(/it was powered and took nothing\./);
  });

  it('claims that a board fell short of its running draw only where that draw is known', () => {
    expect(reached('stepping', 0.4, 'stepping')).toMatch(/did not reach its running draw/);
    expect(reached('stepping', null, 'stepping')).toMatch(/its draw climbed in steps/);
    expect(reached('stepping', null, 'stepping')).not.toMatch(/did not reach/);
  });

  it('does not invent a level for a run without readings', () => {
    const run = inventRun({ role: 'before' }, []);
    const none = {
      ...run,
      report: { ...run.report, reach: { ...run.report.reach, heldA: null, heldW: null } },
    };
    expect(said(inventedWhole, [none])).not.toMatch(/held/);
  });

  it('keeps a right-to-left board name from turning the sentence round', () => {
    const job = { ...inventedJob, boardModel: '\u202eabc' };
    const [first] = summarise({ ...inventedWhole, job }, [], shopClock(0));
    expect(first).toContain('\u2068\u202eabc\u2069');
  });
});
