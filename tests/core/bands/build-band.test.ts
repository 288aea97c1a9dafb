import { describe, expect, it } from 'vitest';
import { bandLeavings } from '../../../core/bands/band-leavings.ts';
import { buildBand, type GoodRun } from '../../../core/bands/build-band.ts';
import { BAND_STEP_S, toleranceFor } from '../../../core/bands/known-good-band.ts';
import { runCurve } from '../../../core/bands/run-curve.ts';
import type { Mark } from '../../../core/stages/stage.ts';
import { CHARGER_FEED, report } from '../../support/ledger-samples.ts';
import {
  inventedRun,
  type RunTwist,
  randomSource,
  type Staircase,
} from '../match/invented-runs.ts';

const board: Staircase = [
  [0, 0.02],
  [1.2, 0.11],
  [2.5, 0.23],
  [4, 0.42],
];
const stalls: Staircase = board.slice(0, 3);
const random = randomSource(9_120_417);
const noise = () => random() - 0.5;

function good(id: string, twist: RunTwist = {}, part: Partial<GoodRun> = {}): GoodRun {
  const columns = inventedRun(board, { seconds: 40, noise, ...twist });
  return {
    id,
    feed: CHARGER_FEED,
    feedV: twist.volts ?? 12,
    report: report({ marks: [] }),
    columns,
    ...part,
  };
}
const five = [0.95, 0.98, 1, 1.02, 1.06].map((stretch, i) => good(`run ${i}`, { stretch }));
const ask = (runs: readonly GoodRun[], feedV = 12) =>
  buildBand({ runs, feed: CHARGER_FEED, feedV });
const judge = (runs: readonly GoodRun[], stairs: Staircase, twist: RunTwist = {}) => {
  const band = ask(runs, twist.volts).bands[0]!;
  const columns = inventedRun(stairs, { seconds: 40, noise, ...twist });
  return bandLeavings(band, runCurve(columns, 0, band.quantity), 0);
};

describe('buildBand', () => {
  it('holds further good runs of the same board inside', () => {
    for (const stretch of [0.93, 1, 1.08]) {
      expect(judge(five, board, { stretch }).leavings).toEqual([]);
    }
  });

  it('says when and by how much a stalled run leaves it', () => {
    const { leavings } = judge(five, stalls);
    expect(leavings).toHaveLength(1);
    const [left] = leavings;
    expect(left!.side).toBe('below');
    expect(left!.fromS).toBeGreaterThan(4);
    expect(left!.fromS).toBeLessThan(6.5);
    expect(left!.toS).toBeNull();
    const edge = 0.42 * (1 - toleranceFor(5).level);
    expect(left!.most).toBeCloseTo(edge - 0.23, 2);
    expect(left!.words.replaceAll('\u00a0', ' ')).toMatch(
      /^\d\.\d s after output on it leaves the known-good band, up to 0?\.?\d+ m?A below \(0?\.?23\d* m?A where good runs draw/,
    );
  });

  it('tells a run that comes back from one that does not, and lets one spike pass', () => {
    const dips = inventedRun(board, { seconds: 40 });
    for (let i = 400; i < 460; i += 1) dips.amps[i] = 0.9;
    dips.amps[600] = 3;
    const band = ask(five).bands[0]!;
    const { leavings } = bandLeavings(band, runCurve(dips, 0, 'amps'), 0);
    expect(leavings).toHaveLength(1);
    expect(leavings[0]).toMatchObject({ side: 'above' });
    expect(leavings[0]!.fromS).toBeCloseTo(20, 5);
    expect(leavings[0]!.toS).toBeCloseTo(23, 5);
    expect(leavings[0]!.words).toContain('back after 3.0 s');
  });

  it('is a line with a wide tolerance from one good run, and says so', () => {
    const one = ask(five.slice(0, 1)).bands[0]!;
    expect(one.basis).toContain('One good run only: a line with a wide tolerance of 25 %');
    const [wide, narrow] = [one, ask(five).bands[0]!].map(({ variants }) => {
      const at = Math.round(20 / BAND_STEP_S);
      return variants[0]!.high[at]! - variants[0]!.low[at]!;
    });
    expect(wide!).toBeGreaterThan(2 * narrow!);
  });

  it('compares watts when the feed volts differ', () => {
    const found = ask(five, 20);
    expect(found.bands[0]).toMatchObject({ quantity: 'watts' });
    expect(found.bands[0]!.basis).toContain('watts are compared');
    expect(judge(five, board, { volts: 20 }).leavings).toEqual([]);
    expect(judge(five, stalls, { volts: 20 }).leavings).toHaveLength(1);
  });

  it('leaves out runs with unlike feeds and says so; makes no band of them alone', () => {
    const cells = good('cells', {}, { feed: { ...CHARGER_FEED, cells: true } });
    const some = ask([...five, cells]);
    expect(some.bands[0]!.runs).toBe(5);
    expect(some.leftOut).toContain('1 good run of this board was fed elsewhere');
    const none = ask([cells]);
    expect(none.bands).toEqual([]);
    expect(none.why).toContain('was fed like this one');
    expect(ask([]).why).toContain('No good run');
  });

  it('has a band for each way that a board boots, and lets either pass', () => {
    const slow: Staircase = [
      [0, 0.02],
      [1.2, 0.11],
      [20, 0.23],
      [24, 0.42],
    ];
    const trained = [1, 1.03].map((stretch, i) =>
      good(`slow ${i}`, {}, { columns: inventedRun(slow, { stretch, seconds: 40, noise }) }),
    );
    const both = [...five, ...trained];
    expect(ask(both).bands[0]!.variants.map(({ runIds }) => runIds.length)).toEqual([5, 2]);
    expect(judge(both, board).leavings).toEqual([]);
    expect(judge(both, slow).leavings).toEqual([]);
    expect(judge(five, slow).leavings.length).toBeGreaterThan(0);
    expect(judge(both, stalls).leavings.length).toBeGreaterThan(0);
  });

  it('counts from the wake request where good runs have one', () => {
    const wake = (atS: number): Mark => ({ mark: 'wake-request', atS, text: '' });
    const runs = [2, 9].map((lateS, i) =>
      good(`late ${i}`, { lateS }, { report: report({ marks: [wake(lateS)], stages: [] }) }),
    );
    const found = ask(runs);
    expect(found.bands.map(({ anchor }) => anchor)).toEqual(['wake-request', 'output-on']);
    const own = inventedRun(board, { lateS: 5, seconds: 40, noise });
    const [band] = found.bands;
    expect(bandLeavings(band!, runCurve(own, 5, 'amps'), 5).leavings).toEqual([]);
  });

  it('leaves the way down after output off out of the band', () => {
    const off = (atS: number): Mark => ({ mark: 'output-off', atS, text: '' });
    const ended = [0.97, 1, 1.03].map((stretch, i) => {
      const columns = inventedRun(board, { stretch, seconds: 31, noise });
      columns.amps.fill(0, 30 * 20);
      const run = { report: report({ marks: [off(30)], stages: [] }), columns };
      return good(`ended ${i}`, {}, run);
    });
    const band = ask(ended).bands[0]!;
    expect(band.variants[0]!.low.length * BAND_STEP_S).toBeCloseTo(29.8, 5);
    expect(band.variants[0]!.low.at(-1)).toBeGreaterThan(0.3);
  });

  it('judges nothing where no good run has readings', () => {
    const short = [good('short', { seconds: 6 })];
    expect(judge(short, stalls, { seconds: 40 }).judgedToS).toBeCloseTo(6, 5);
  });
});
