import { describe, expect, it } from 'vitest';
import { createSeededRandom } from '../../../core/bench-model/seeded-random.ts';
import type { Quantity } from '../../../core/job/job.ts';
import type { ProbeEvent, WatchedReading } from '../../../core/probing/probe-event.ts';
import { createProbeWatch } from '../../../core/probing/probe-watch.ts';
import {
  findSettled,
  MIN_READINGS,
  MIN_SPAN_MS,
  toleranceOf,
} from '../../../core/probing/settled.ts';
import {
  drawTouch,
  meterReading,
  type SimulatedMeter,
  type SimulatedTouch,
  tipOf,
  watched,
} from '../../support/probe-simulator.ts';

const EVERY_MS = 200;

/** Feeds values 200 ms apart (null = overload) and keeps what the watch said. */
function feeder(quantity: Quantity, more: Partial<WatchedReading> = {}) {
  const watch = createProbeWatch();
  let tMs = 0;
  const said: ProbeEvent[] = [];
  const feed = (...values: (number | null)[]): readonly ProbeEvent[] => {
    const now = values.flatMap((value) => {
      tMs += EVERY_MS;
      const overload = value === null;
      return watch.push({
        quantity,
        value,
        overload,
        decimals: 4,
        tMs,
        outputOn: false,
        feedV: 0,
        ...more,
      });
    });
    said.push(...now);
    return now;
  };
  return { watch, feed, said, kinds: () => said.map((one) => one.kind) };
}

describe('the probe watch', () => {
  it('takes a touch once, and arms again when the probe is lifted', () => {
    const { feed } = feeder('volts');
    expect(feed(0, 0, 0).map((one) => one.kind)).toEqual(['lifted', 'armed']);
    const events = feed(1.7, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3);
    expect(events.map((one) => one.kind)).toEqual(['settling', 'taken']);
    expect(events[1]).toMatchObject({ reading: { value: 3.3, overload: false, decimals: 4 } });
    expect(feed(0, 0).map((one) => one.kind)).toEqual(['lifted', 'armed']);
  });

  it('takes nothing before it has seen the lead in the air', () => {
    const { feed } = feeder('volts');
    expect(feed(3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3)).toEqual([]);
  });

  it('replaces the last reading by a second touch within a moment, not by a later one', () => {
    const { feed } = feeder('volts');
    feed(0, 0, 3.3, 3.3, 3.3, 3.3, 3.3);
    expect(feed(0, 0, 3.31, 3.31, 3.31, 3.31, 3.31).at(-1)).toMatchObject({
      kind: 'replaced',
      reading: { value: 3.31 },
    });
    expect(feed(0, 0, 0, 0, 0, 0, 5, 5, 5, 5, 5).at(-1)).toMatchObject({
      kind: 'taken',
      reading: { value: 5 },
    });
  });

  it('does not take a rising rail before it stands', () => {
    const { feed } = feeder('volts');
    feed(0, 0);
    const rising = Array.from({ length: 100 }, (_, i) => 5 * (1 - Math.exp((-i * 0.2) / 2)));
    const taken = feed(...rising.slice(1)).find((one) => one.kind === 'taken');
    expect(taken).toMatchObject({ reading: { value: expect.closeTo(5, 1) } });
    expect(taken?.kind === 'taken' && taken.reading.value! > 5 * 0.995).toBe(true);
  });

  it('does not take a staircase, a ramp or two contacts in turn', () => {
    for (const wave of [
      (i: number) => 1 + 0.01 * i,
      (i: number) => (i % 2 === 0 ? 3.3 : 3.2),
      (i: number) => 1 + Math.floor(i / 3),
    ]) {
      const { feed } = feeder('volts');
      feed(0, 0);
      const events = feed(...Array.from({ length: 60 }, (_, i) => wave(i)));
      expect(events.filter((one) => one.kind === 'taken')).toEqual([]);
    }
  });

  it('tells an open lead on ohms and diode from a value, and over range on volts too', () => {
    for (const quantity of ['ohms', 'diode', 'continuity'] as const) {
      const { feed, kinds } = feeder(quantity);
      feed(...Array.from({ length: 20 }, () => null));
      expect(kinds()).toEqual(['lifted', 'armed']);
    }
    const { feed, said } = feeder('volts');
    feed(0, 0, null, null, null, null, null, null);
    expect(said.at(-1)).toMatchObject({ kind: 'taken', reading: { value: null, overload: true } });
  });

  it('leaves a dead rail to the technician, who takes it by force', () => {
    const { feed, watch } = feeder('volts');
    feed(0, 0);
    expect(feed(0.001, 0.001, 0.001, 0.001, 0.001, 0.001)).toEqual([]);
    expect(watch.force()).toMatchObject([{ kind: 'taken', reading: { value: 0.001 } }]);
    expect(watch.force()).toEqual([]);
    feed(0, 0);
    expect(watch.force()).toMatchObject([{ kind: 'taken' }]);
  });

  it('refuses resistance while the output is on, while the feed holds volts, and below zero', () => {
    for (const quantity of ['ohms', 'diode', 'continuity'] as const) {
      const on = feeder(quantity, { outputOn: true });
      on.feed(null, null, 12, 12, 12, 12, 12, 12);
      expect(on.said.at(-1)).toEqual({ kind: 'refused', why: 'output-on' });
      expect(on.watch.force()).toEqual([{ kind: 'refused', why: 'output-on' }]);
      const charged = feeder(quantity, { feedV: 4 });
      charged.feed(null, null, 12, 12, 12, 12, 12, 12);
      expect(charged.said.at(-1)).toEqual({ kind: 'refused', why: 'volts-remain' });
      const below = feeder(quantity);
      below.feed(null, null, -40, -40, -40, -40, -40, -40);
      expect(below.said.at(-1)).toEqual({ kind: 'refused', why: 'volts-remain' });
      expect([...on.said, ...charged.said, ...below.said].map((one) => one.kind)).not.toContain(
        'taken',
      );
    }
  });

  it('refuses the wrong function, once a touch', () => {
    const { feed, watch, kinds } = feeder('volts');
    watch.want('ohms');
    feed(0, 0, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3, 3.3);
    expect(kinds()).toEqual(['lifted', 'armed', 'refused']);
    feed(0, 0, 3.3);
    expect(kinds().filter((one) => one === 'refused')).toHaveLength(2);
  });

  it('goes on with the touch once the output is off', () => {
    const watch = createProbeWatch();
    const base = { quantity: 'ohms' as const, overload: false, decimals: 2, feedV: 0 };
    const at = (tMs: number, value: number | null, outputOn: boolean) =>
      watch.push({ ...base, value, overload: value === null, tMs, outputOn });
    at(0, null, true);
    at(200, null, true);
    expect(at(400, 47, true)).toMatchObject([{ kind: 'refused' }]);
    const after = [600, 800, 1000, 1200, 1400, 1600].flatMap((tMs) => at(tMs, 47, false));
    expect(after.map((one) => one.kind)).toEqual(['settling', 'taken']);
  });

  it('wants the lead in the air again after the meter changed its function', () => {
    const { feed, watch } = feeder('volts');
    feed(0, 0, 3.3, 3.3);
    const reading = { quantity: 'ohms' as const, overload: false, decimals: 2 };
    const events = [1000, 1200, 1400, 1600, 1800, 2000].flatMap((tMs) =>
      watch.push({ ...reading, value: 20, tMs, outputOn: false, feedV: 0 }),
    );
    expect(events).toEqual([]);
  });
});

interface Tally {
  touches: number;
  taken: number;
  wrong: string[];
  late: number[];
  byKind: Map<string, number[]>;
}

const KINDS = ['plain', 'chatter', 'slip', 'slow', 'ranging', 'noisy'] as const;
/** Nobody holds a probe on a point for longer. */
const PATIENCE_MS = 45_000;

/** Probes `count` invented points with one meter and keeps score. */
function probeMany(seed: number, count: number, tally: Tally): void {
  const random = createSeededRandom(seed, 'probing');
  for (let i = 0; i < count; i += 1) {
    const kind = KINDS[i % KINDS.length]!;
    const quantity = (['volts', 'ohms', 'diode'] as const)[Math.floor(i / KINDS.length) % 3]!;
    const intervalMs = [50, 100, 200, 250, 400][Math.floor(5 * random.even())]!;
    const touch = drawTouch(random, kind, quantity);
    const digits = 5 - Math.floor(Math.log10(touch.truth));
    const meter: SimulatedMeter = {
      intervalMs,
      aperture: 0.5 + 0.5 * random.even(),
      decimals: Math.max(0, digits - 1),
    };
    const watch = createProbeWatch();
    const tip = tipOf(touch, random);
    const touchAtMs = touch.airBeforeMs;
    const at = (ms: number) => tip.at(ms - touchAtMs);
    const spanMs = meter.intervalMs * meter.aperture;
    const clean: WatchedReading[] = [];
    let ranging = touch.ranging;
    let contacts = 0;
    let takenAtMs: number | null = null;
    let earliestMs: number | null = null;
    let takes = 0;
    const phaseMs = intervalMs * random.even();
    for (let tMs = phaseMs; tMs < touchAtMs + PATIENCE_MS; tMs += intervalMs) {
      const truth = meterReading(meter, quantity, at, tMs, 0);
      let reading = meterReading(meter, quantity, at, tMs, touch.noise * random.normal());
      const touches = tMs - spanMs >= touchAtMs + tip.cleanFromMs;
      if (touches && ranging > 0) {
        ranging -= 1;
        reading =
          quantity === 'volts' && random.even() < 0.5
            ? { value: reading.value! * 0.4, overload: false }
            : { value: null, overload: true };
      } else if (touches) {
        clean.push(watched(quantity, truth, meter, tMs));
        contacts += 1;
        const needed = neededFor(touch, meter);
        if (earliestMs === null && contacts >= needed && findSettled(clean, quantity) !== null) {
          earliestMs = tMs;
        }
      }
      for (const event of watch.push(watched(quantity, reading, meter, tMs))) {
        if (event.kind === 'refused') tally.wrong.push(`${kind} ${i} refused ${event.why}`);
        if (event.kind !== 'taken' && event.kind !== 'replaced') continue;
        takes += 1;
        takenAtMs ??= tMs;
        const { value } = event.reading;
        const tol = toleranceOf(quantity, touch.truth, meter.decimals);
        const room = Math.max(0.005 * touch.truth, 1.5 * tol) + 3 * touch.noise;
        // A slip after the reading was taken is a second touch within a moment: it replaces.
        const kinds = takes === 1 ? ['taken'] : kind === 'slip' ? ['replaced'] : [];
        const isRight =
          kinds.includes(event.kind) && value !== null && Math.abs(value - touch.truth) <= room;
        if (!isRight) {
          tally.wrong.push(`${kind} ${i} ${quantity}: took ${value}, true ${touch.truth}`);
        }
      }
      if (takenAtMs !== null && tMs > takenAtMs + 1500) break;
    }
    tally.touches += 1;
    if (takenAtMs === null || earliestMs === null) continue;
    tally.taken += 1;
    const late = (takenAtMs - earliestMs) / intervalMs;
    tally.late.push(late);
    tally.byKind.set(kind, [...(tally.byKind.get(kind) ?? []), late]);
  }
}

/** Readings that the criterion asks for at this noise, by its own formulas with the true figures. */
function neededFor(touch: SimulatedTouch, meter: SimulatedMeter): number {
  const hS = meter.intervalMs / 1000;
  const tol = toleranceOf(touch.quantity, touch.truth, meter.decimals);
  for (let n = MIN_READINGS; n < 400; n += 1) {
    if ((n - 1) * meter.intervalMs < MIN_SPAN_MS) continue;
    const noiseError = touch.noise / (hS * Math.sqrt((n * (n * n - 1)) / 12));
    const error = Math.max(noiseError, 10 ** -meter.decimals / ((n - 1) * hS));
    const agrees = touch.noise * 2 <= tol || (n >= 8 && touch.noise / Math.sqrt(n) <= tol);
    if (agrees && error * 5 <= Math.max(tol, touch.noise)) return n;
  }
  return 400;
}

const median = (values: readonly number[]) =>
  [...values].sort((a, b) => a - b)[Math.floor(values.length / 2)]!;

describe('six thousand invented touches', () => {
  it('are never taken wrong, and at the median within two readings of the earliest moment', () => {
    const tally: Tally = { touches: 0, taken: 0, wrong: [], late: [], byKind: new Map() };
    for (let seed = 1; seed <= 10; seed += 1) probeMany(seed, 600, tally);
    const byKind = [...tally.byKind].map(([kind, late]) => `${kind} ${median(late).toFixed(1)}`);
    console.log(
      `${tally.touches} touches, ${tally.taken} taken, ${tally.wrong.length} wrong, ` +
        `median ${median(tally.late).toFixed(2)} readings late (${byKind.join(', ')})`,
    );
    expect(tally.touches).toBeGreaterThanOrEqual(500);
    expect(tally.wrong).toEqual([]);
    expect(tally.taken).toBeGreaterThanOrEqual(0.99 * tally.touches);
    expect(median(tally.late)).toBeLessThanOrEqual(2);
    for (const late of tally.byKind.values()) expect(median(late)).toBeLessThanOrEqual(4);
  });
});
