import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createPyramid, pyramidFromBytes } from '../../../core/trace/pyramid.ts';
import type { TraceColumns, TraceWindow } from '../../../core/trace/sample.ts';
import { windowOfSamples } from '../../../core/trace/window-of-samples.ts';

function columnsOf(ticks: number[], volts: number[], amps: number[]): TraceColumns {
  return {
    ticks: Float64Array.from(ticks),
    volts: Float64Array.from(volts),
    amps: Float64Array.from(amps),
    regulation: new Uint8Array(ticks.length),
  };
}

function part(all: TraceColumns, from: number, to: number): TraceColumns {
  return {
    ticks: all.ticks.slice(from, to),
    volts: all.volts.slice(from, to),
    amps: all.amps.slice(from, to),
    regulation: all.regulation.slice(from, to),
  };
}

/** A quiet run at about 20 Hz with one spike. */
function quietRun(samples: number, spikeAt: number): TraceColumns {
  const ticks: number[] = [];
  for (let i = 0; i < samples; i += 1) ticks.push(i * 500 + ((i * 7919) % 21));
  const amps = ticks.map((_, i) => (i === spikeAt ? 3 : 0.019 + ((i * 31) % 3) / 1000));
  return columnsOf(
    ticks,
    ticks.map(() => 12),
    amps,
  );
}

const entries = (window: TraceWindow) => [...window.tick.keys()];
const highest = (window: TraceWindow) =>
  Math.max(...window.ampsMax.filter((a) => !Number.isNaN(a)));

describe('createPyramid', () => {
  it('shows a spike of one sample at every zoom, wherever it is', () => {
    for (const spikeAt of [0, 1, 63, 64, 65, 5_000, 19_999]) {
      const run = quietRun(20_000, spikeAt);
      const pyramid = createPyramid();
      pyramid.append(run);
      const at = run.ticks[spikeAt]!;
      for (let width = 10_000_000; width > 500; width /= 3) {
        const fromTick = Math.max(0, Math.floor(at - width / 2.5));
        for (const columns of [1, 7, 100, 1_000]) {
          const window = pyramid.window(fromTick, Math.ceil(fromTick + width), columns);
          expect(highest(window)).toBe(3);
          const seen = entries(window).find((i) => window.ampsMax[i] === 3)!;
          const reach = Math.max(width / columns, 65 * 500);
          expect(Math.abs(window.tick[seen]! - at)).toBeLessThanOrEqual(reach);
        }
      }
    }
  });

  it('keeps count, lowest, highest and mean of the whole run in one column', () => {
    const run = quietRun(10_007, 400);
    const pyramid = createPyramid();
    pyramid.append(run);
    const window = pyramid.window(0, pyramid.lastTick + 1, 1);
    expect(window.count[0]).toBe(10_007);
    expect(window.ampsMin[0]).toBe(Math.min(...run.amps));
    expect(window.ampsMax[0]).toBe(3);
    expect(window.ampsMean[0]).toBeCloseTo(run.amps.reduce((a, b) => a + b, 0) / 10_007, 12);
    expect(window.voltsMean[0]).toBe(12);
  });

  it('has nearly the counts and means of the samples themselves, a node at most out of place', () => {
    const run = quietRun(30_000, 12_345);
    const pyramid = createPyramid();
    pyramid.append(run);
    const fine = windowOfSamples(run, 0, 15_000_000, 100);
    const coarse = pyramid.window(0, 15_000_000, 100);
    expect(coarse.tick.length).toBe(fine.tick.length);
    for (const i of entries(fine)) {
      expect(Math.abs(coarse.count[i]! - fine.count[i]!)).toBeLessThanOrEqual(64);
      expect(coarse.ampsMean[i]!).toBeCloseTo(fine.ampsMean[i]!, 2);
    }
  });

  it('gives the same windows however the run is split over calls', () => {
    const run = quietRun(3_000, 77);
    const whole = createPyramid();
    whole.append(run);
    fc.assert(
      fc.property(fc.array(fc.integer({ min: 0, max: 3_000 }), { maxLength: 30 }), (cuts) => {
        const pyramid = createPyramid();
        let from = 0;
        for (const cut of [...cuts.sort((a, b) => a - b), 3_000]) {
          pyramid.append(part(run, from, cut));
          from = cut;
        }
        expect(pyramid.samples).toBe(3_000);
        expect(pyramid.window(0, 1_500_000, 50)).toEqual(whole.window(0, 1_500_000, 50));
      }),
      { numRuns: 25 },
    );
  });

  it('marks a gap of minutes with columns of count 0, at every zoom', () => {
    const run = quietRun(2_000, 0);
    const ticks = run.ticks.map((tick, i) => (i < 1_000 ? tick : tick + 6_000_000));
    const pyramid = createPyramid();
    pyramid.append({ ...run, ticks });
    for (const columns of [10, 100, 1_000]) {
      const window = pyramid.window(0, 7_000_000, columns);
      const empty = entries(window).filter((i) => window.count[i] === 0);
      expect(empty.length).toBeGreaterThan(columns * 0.7);
      for (const i of empty) {
        expect(window.tick[i]).toBeGreaterThan(400_000);
        expect(window.tick[i]).toBeLessThan(6_600_000);
        expect(window.ampsMin[i]).toBeNaN();
      }
    }
  });

  it('keeps times of readings that were not taken, with no number for them', () => {
    const pyramid = createPyramid();
    const none = Number.NaN;
    pyramid.append(columnsOf([0, 500, 1_000], [none, none, none], [0.1, none, 0.3]));
    const window = pyramid.window(0, 1_500, 1);
    expect(window.count[0]).toBe(3);
    expect(window.voltsMin[0]).toBeNaN();
    expect(window.voltsMean[0]).toBeNaN();
    expect(window.ampsMean[0]).toBeCloseTo(0.2, 12);
  });

  it('gives no entries before the run, after it, and for an empty stretch', () => {
    const pyramid = createPyramid();
    expect(pyramid.lastTick).toBe(-1);
    expect(pyramid.window(0, 100, 10).tick.length).toBe(0);
    pyramid.append(columnsOf([1_000, 1_500], [1, 1], [2, 2]));
    expect(pyramid.window(0, 900, 10).tick.length).toBe(0);
    expect(pyramid.window(2_000, 9_000, 10).tick.length).toBe(0);
    expect(pyramid.window(1_500, 1_500, 10).tick.length).toBe(0);
  });

  it('comes back from its bytes, draws the same, and grows on', () => {
    const run = quietRun(5_000, 4_100);
    const whole = createPyramid();
    whole.append(run);
    const early = createPyramid();
    early.append(part(run, 0, 2_345));
    const later = pyramidFromBytes(early.toBytes());
    expect(later.samples).toBe(2_345);
    later.append(part(run, 2_345, 5_000));
    expect(later.lastTick).toBe(whole.lastTick);
    const one = later.window(100, 2_400_000, 333);
    const other = whole.window(100, 2_400_000, 333);
    expect(one.ampsMax).toEqual(other.ampsMax);
    expect(one.ampsMin).toEqual(other.ampsMin);
    expect(one.count).toEqual(other.count);
    for (const i of entries(other)) expect(one.ampsMean[i]).toBeCloseTo(other.ampsMean[i]!, 4);
  });
});

describe('windowOfSamples', () => {
  it('gives an entry a sample, at its own tick, when samples are sparser than columns', () => {
    const run = quietRun(10, 4);
    const window = windowOfSamples(run, 0, 5_000, 1_000);
    expect([...window.tick]).toEqual([...run.ticks]);
    expect([...window.ampsMax]).toEqual([...run.amps]);
  });

  it('breaks the curve at a gap and nowhere else', () => {
    const run = columnsOf([0, 500, 1_020, 30_000, 30_500], [1, 1, 1, 1, 1], [1, 2, 3, 4, 5]);
    const window = windowOfSamples(run, 0, 31_000, 100);
    const counts = [...window.count];
    expect(counts.filter((n) => n === 1)).toHaveLength(5);
    expect(counts.indexOf(0)).toBe(3);
    expect(counts.lastIndexOf(0)).toBe(counts.length - 3);
  });
});

describe('windowOfSamples against the tests of the open-source library predict-idlab/tsdownsample', () => {
  // downsample_rs/src/minmax.rs: 100 values 0..99 into 5 bins of two points each.
  const values = Array.from({ length: 100 }, (_, i) => i);

  it('keeps the same lowest and highest of each bin for even spacing', () => {
    const window = windowOfSamples(columnsOf(values, values, values), 0, 100, 5);
    const pairs = entries(window).flatMap((i) => [window.ampsMin[i]!, window.ampsMax[i]!]);
    expect(pairs).toEqual([0, 19, 20, 39, 40, 59, 60, 79, 80, 99]);
  });

  it('keeps the same for a gap in time, where one bin has nothing', () => {
    const ticks = values.map((i) => (i > 50 ? i + 50 : i) * 1000);
    const window = windowOfSamples(columnsOf(ticks, values, values), 0, 150_000, 5);
    expect([...window.count]).toEqual([30, 21, 0, 19, 30]);
    const filled = entries(window).filter((i) => window.count[i]! > 0);
    const pairs = filled.flatMap((i) => [window.ampsMin[i]!, window.ampsMax[i]!]);
    expect(pairs).toEqual([0, 29, 30, 50, 51, 69, 70, 99]);
  });
});
