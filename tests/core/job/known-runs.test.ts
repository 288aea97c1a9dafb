import { describe, expect, it } from 'vitest';
import { type KnownRun, settingsFromRuns } from '../../../core/job/known-runs.ts';
import { CHARGER_FEED } from '../../support/ledger-samples.ts';

const run = (part: Partial<KnownRun> = {}): KnownRun => ({
  role: null,
  reachedRunning: true,
  provedGood: true,
  feed: CHARGER_FEED,
  runningA: 0.5,
  runningV: 19,
  runsFlat: false,
  wokeAfterS: 6,
  ...part,
});
const told = (runs: readonly KnownRun[], o: { setV?: number | null } = {}) =>
  settingsFromRuns({
    runs,
    board: { statedInputV: 20, statedLimitA: null, runningA: 0.7, runsFlat: true },
    feed: CHARGER_FEED,
    setV: o.setV === undefined ? 19 : o.setV,
    limitA: 1,
    zeroFloorA: 0.001,
  });

describe('what good runs teach', () => {
  it('is the median level with its own volts, the slowest wake, and the usual flatness', () => {
    const runs = [
      run({ runningA: 0.6, runningV: 18.9, runsFlat: true }),
      run({ runningA: 0.5, runningV: 19.1, wokeAfterS: 9 }),
      run({ runningA: 0.4, wokeAfterS: null }),
    ];
    expect(told(runs)).toEqual({
      setV: 19,
      limitA: 1,
      zeroFloorA: 0.001,
      runningA: 0.5,
      runningV: 19.1,
      runsFlat: false,
      wakesWithinS: 9,
    });
  });

  it('prefers the same volts, and takes others with theirs when there are none', () => {
    const at5 = run({ runningA: 1.9, runningV: 5 });
    expect(told([at5, run()]).runningA).toBe(0.5);
    expect(told([at5])).toMatchObject({ runningA: 1.9, runningV: 5 });
    expect(told([at5], { setV: null })).toMatchObject({ runningA: 1.9, runningV: 5 });
  });

  it('gives way to the notes on the board when nothing is comparable', () => {
    const notes = { runningA: 0.7, runningV: 20, runsFlat: true, wakesWithinS: null };
    expect(told([])).toMatchObject(notes);
    expect(told([run({ feed: { ...CHARGER_FEED, point: 'battery-line' } })])).toMatchObject(notes);
    expect(told([run({ feed: { ...CHARGER_FEED, cells: true } })])).toMatchObject(notes);
    expect(told([run({ role: 'before' })])).toMatchObject(notes);
    expect(told([run({ role: 'after', reachedRunning: false, provedGood: false })])).toMatchObject(
      notes,
    );
    expect(told([run({ reachedRunning: false })])).toMatchObject(notes);
  });

  it('looks at the newest five only', () => {
    const old = Array.from({ length: 9 }, () => run({ runningA: 3 }));
    const young = Array.from({ length: 5 }, () => run({ runningA: 0.5 }));
    expect(told([...young, ...old]).runningA).toBe(0.5);
  });
});
