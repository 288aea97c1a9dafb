import { describe, expect, it } from 'vitest';
import { bandLeavings, type Leaving } from '../../../core/bands/band-leavings.ts';
import { buildBand, type GoodRun } from '../../../core/bands/build-band.ts';
import { runCurve } from '../../../core/bands/run-curve.ts';
import { createPretendBench } from '../../../core/bench-model/pretend-bench.ts';
import type { TraceColumns } from '../../../core/trace/sample.ts';
import { CHARGER_FEED, report } from '../../support/ledger-samples.ts';

/** A pretend board powered as it states, read 20 times a second from output on. */
function powered(key: string, seed: number, forS: number): TraceColumns {
  let nowS = 0;
  const bench = createPretendBench({ seed, nowS: () => nowS });
  const ask = (text: string): number => {
    let heard = '';
    const stop = bench.supply.onBytes((bytes) => {
      heard += String.fromCharCode(...bytes);
    });
    bench.supply.receive(Uint8Array.from(`${text}\n`, (c) => c.charCodeAt(0)));
    stop();
    return Number(heard.trim());
  };
  const board = bench.shelf.find((one) => one.key === key)!;
  bench.putBoard(key);
  ask(`VOLT ${board.statedInputV};CURR ${board.statedLimitA};:OUTP ON`);
  const count = forS * 20;
  const columns = {
    ticks: new Float64Array(count),
    volts: new Float64Array(count),
    amps: new Float64Array(count),
    regulation: new Uint8Array(count).fill(1),
  };
  for (let i = 0; i < count; i += 1) {
    nowS += 0.05;
    bench.advanceTo(nowS);
    columns.ticks[i] = i * 500;
    columns.volts[i] = ask('MEAS:VOLT?');
    columns.amps[i] = ask('MEAS:CURR?');
  }
  return columns;
}

const SECONDS = 25;
const good = (key: string, seed: number): GoodRun => ({
  id: `${key} ${seed}`,
  feed: CHARGER_FEED,
  feedV: 19,
  report: report({ marks: [], stages: [] }),
  columns: powered(key, seed, SECONDS),
});
function leavingsOf(runs: readonly GoodRun[], columns: TraceColumns): readonly Leaving[] {
  const band = buildBand({ runs, feed: CHARGER_FEED, feedV: 19 }).bands[0]!;
  return bandLeavings(band, runCurve(columns, 0, band.quantity), 0).leavings;
}

describe('the band of a pretend board, seeds it was not made from', () => {
  const terns = [11, 12, 13].map((seed) => good('tern-healthy', seed));

  it('holds further runs of the sound board, from three good runs and from one', () => {
    for (const seed of [21, 22, 23]) {
      const columns = powered('tern-healthy', seed, SECONDS);
      expect(leavingsOf(terns, columns), `seed ${seed}`).toEqual([]);
      expect(leavingsOf(terns.slice(0, 1), columns), `seed ${seed}, one run`).toEqual([]);
    }
  });

  it.each([
    'tern-main-short',
    'tern-input-short',
    'tern-no-enable',
    'tern-loop',
    'tern-stall',
    'tern-falls',
  ])('is left by %s, within the wake', (key) => {
    const [first] = leavingsOf(terns, powered(key, 31, SECONDS));
    expect(first).toBeDefined();
    expect(first!.fromS).toBeLessThan(key === 'tern-falls' ? SECONDS : 10);
  });
});
