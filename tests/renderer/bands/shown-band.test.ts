import { describe, expect, it } from 'vitest';
import { buildBand } from '../../../core/bands/build-band.ts';
import type { Mark } from '../../../core/stages/stage.ts';
import { shownBand } from '../../../renderer/bands/shown-band.ts';
import { createRunTrace } from '../../../renderer/live/run-trace.ts';
import { inventedRun, type Staircase } from '../../core/match/invented-runs.ts';
import { CHARGER_FEED, report } from '../../support/ledger-samples.ts';

const board: Staircase = [
  [0, 0.02],
  [2, 0.2],
  [5, 0.4],
];
const wake = (atS: number): Mark => ({ mark: 'wake-request', atS, text: '' });
const said = (marks: readonly Mark[]) => report({ marks, stages: [] });
const good = (id: string, lateS: number) => ({
  id,
  feed: CHARGER_FEED,
  feedV: 12,
  report: said([wake(lateS)]),
  columns: inventedRun(board, { lateS, seconds: 60 }),
});
const runs = [good('a', 2), good('b', 3)];
const trace = (stairs: Staircase, lateS: number, volts = 12) => {
  const run = createRunTrace('run');
  run.append(inventedRun(stairs, { lateS, seconds: 60, volts }));
  return run;
};

describe('shownBand', () => {
  const found = buildBand({ runs, feed: CHARGER_FEED, feedV: 12 });

  it('lays the band at the wake request of the run, and finds nothing wrong with a good one', () => {
    const shown = shownBand(found, said([wake(7)]), trace(board, 7), 12)!;
    expect(shown.startTick).toBe(70_000);
    expect(shown.band.anchor).toBe('wake-request');
    expect(shown.leavings).toEqual([]);
  });

  it('marks when a run leaves it on the clock of the run', () => {
    const shown = shownBand(found, said([wake(7)]), trace(board.slice(0, 2), 7), 12)!;
    expect(shown.leavings).toHaveLength(1);
    expect(shown.leavings[0]!.fromS).toBeGreaterThan(12);
    expect(shown.leavings[0]!.fromS).toBeLessThan(15);
  });

  it('does not judge what comes after output off', () => {
    const off: Mark = { mark: 'output-off', atS: 40, text: '' };
    const ended = trace(board, 7);
    ended.all().amps.fill(0, 40 * 20);
    expect(shownBand(found, said([wake(7), off]), ended, 12)!.leavings).toEqual([]);
  });

  it('falls back to output on without a wake request', () => {
    expect(shownBand(found, said([]), trace(board, 2), 12)!.band.anchor).toBe('output-on');
  });

  it('shows watts as amps at the volts of the run, and nothing where those are not known', () => {
    const other = buildBand({ runs, feed: CHARGER_FEED, feedV: 20 });
    const shown = shownBand(other, said([wake(2)]), trace(board, 2, 20), 20)!;
    expect(shown.toAmps).toBeCloseTo(0.05, 9);
    expect(shown.leavings).toEqual([]);
    expect(shownBand(other, said([wake(2)]), trace(board, 2, 20), null)).toBeNull();
    expect(shownBand(null, said([]), trace(board, 2), 12)).toBeNull();
  });
});
