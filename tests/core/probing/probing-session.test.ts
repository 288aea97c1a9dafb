import { describe, expect, it } from 'vitest';
import { createSeededRandom } from '../../../core/bench-model/seeded-random.ts';
import { createProbeWatch } from '../../../core/probing/probe-watch.ts';
import { toleranceOf } from '../../../core/probing/settled.ts';
import {
  drawTouch,
  meterReading,
  type SimulatedMeter,
  type SimulatedTouch,
  tipOf,
  watched,
} from '../../support/probe-simulator.ts';

/** What the technician means by a touch. */
type Meaning = 'new' | 'again' | 'dead' | 'live';

const KINDS = ['plain', 'chatter', 'slip', 'ranging', 'noisy', 'slow'] as const;
const GIVES_UP_MS = 20_000;
const HEARS_TONE_MS = 250;

/**
 * A whole bench session with one watch: the technician touches, waits for the tone, lifts after it
 * was heard, and goes on; some points are dead, some are touched again at once, and resistance is
 * tried now and then on a live board.
 */
function session(seed: number, count: number) {
  const random = createSeededRandom(seed, 'session');
  const intervalMs = [100, 200, 250][seed % 3]!;
  const quantity = (['volts', 'ohms', 'diode'] as const)[seed % 3]!;
  const watch = createProbeWatch();
  const wrong: string[] = [];
  const counts = { touches: 0, taken: 0, replaced: 0, refused: 0, gaveUp: 0 };
  let tMs = 0;
  let touchedAtMs = 0;
  let touch: SimulatedTouch | null = null;
  let tip: (ms: number) => number | null = () => null;
  let isOn = false;
  const meter: SimulatedMeter = {
    intervalMs,
    aperture: 0.8,
    decimals: quantity === 'ohms' ? 2 : 5,
  };
  const air = (ms: number) =>
    quantity === 'volts' ? 1e-3 * Math.sin(ms / 37) : (null as number | null);
  const at = (ms: number) => {
    if (touch === null || ms < touchedAtMs) return air(ms);
    return tip(ms - touchedAtMs) ?? air(ms);
  };

  /** One reading; answers what was taken by it. */
  function read() {
    tMs += intervalMs;
    const noise = touch === null ? 0 : touch.noise * random.normal();
    const reading = watched(quantity, meterReading(meter, quantity, at, tMs, noise), meter, tMs);
    return watch.push({ ...reading, outputOn: isOn, feedV: isOn ? null : 0 });
  }

  function wait(ms: number) {
    const until = tMs + ms;
    while (tMs < until) for (const event of read()) judge(event.kind, null, 'air', 0);
  }

  function judge(kind: string, value: number | null, meaning: Meaning | 'air', truth: number) {
    if (kind !== 'taken' && kind !== 'replaced') return;
    const wanted = meaning === 'again' ? 'replaced' : meaning === 'new' ? 'taken' : 'nothing';
    const room = Math.max(0.005 * truth, 1.5 * toleranceOf(quantity, truth, meter.decimals));
    const off = value === null ? Number.POSITIVE_INFINITY : Math.abs(value - truth);
    if (kind !== wanted || off > room + 3 * (touch?.noise ?? 0)) {
      wrong.push(`${seed} touch ${counts.touches} (${meaning}): ${kind} ${value} for ${truth}`);
    }
  }

  function put(next: SimulatedTouch, meaning: Meaning): boolean {
    counts.touches += 1;
    touch = next;
    tip = tipOf(next, random).at;
    touchedAtMs = tMs + intervalMs * random.even();
    isOn = meaning === 'live';
    const givesUpMs = meaning === 'new' || meaning === 'again' ? GIVES_UP_MS : 3000;
    let hasTaken = false;
    while (tMs < touchedAtMs + givesUpMs && !hasTaken) {
      for (const event of read()) {
        if (event.kind === 'refused') counts.refused += 1;
        if (event.kind !== 'taken' && event.kind !== 'replaced') continue;
        // A bounce after the reading would be another touch; it is lifted at the tone.
        hasTaken = true;
        counts[event.kind] += 1;
        judge(event.kind, event.reading.value, meaning, next.truth);
      }
    }
    if (hasTaken) {
      const until = tMs + HEARS_TONE_MS + 300 * random.even();
      while (tMs < until) for (const event of read()) judge(event.kind, null, 'air', 0);
    } else if (meaning === 'new' || meaning === 'again') counts.gaveUp += 1;
    touch = null;
    isOn = false;
    return hasTaken;
  }

  wait(1000);
  for (let i = 0; i < count; i += 1) {
    const kind = KINDS[Math.floor(KINDS.length * random.even())]!;
    const drawn = drawTouch(random, kind, quantity);
    const slip = drawn.slip === null ? null : { ...drawn.slip, to: null };
    const next = { ...drawn, slip };
    const dice = random.even();
    if (dice < 0.1 && quantity === 'volts')
      put({ ...next, truth: 0.002, noise: 1e-4, rise: null }, 'dead');
    else if (dice < 0.1) put(next, 'live');
    else if (put(next, 'new') && dice > 0.85) {
      // In the air just long enough to be seen there, and down again.
      wait(Math.max(2 * intervalMs, 300));
      put({ ...next, chatterMs: 0, slip: null, rise: null, ranging: 0 }, 'again');
    }
    wait(1100 + 900 * random.even());
  }
  return { wrong, counts };
}

describe('a day of touches with one watch', () => {
  it('takes each once, as what it was meant, and nothing from the air, dead rails or a live board', () => {
    const all = { touches: 0, taken: 0, replaced: 0, refused: 0, gaveUp: 0 };
    const wrong: string[] = [];
    for (let seed = 1; seed <= 9; seed += 1) {
      const done = session(seed, 250);
      wrong.push(...done.wrong);
      for (const key of Object.keys(all) as (keyof typeof all)[]) all[key] += done.counts[key];
    }
    console.log(`${JSON.stringify(all)}, ${wrong.length} wrong`);
    expect(wrong).toEqual([]);
    expect(all.touches).toBeGreaterThan(2000);
    expect(all.taken).toBeGreaterThan(0.75 * all.touches);
    expect(all.replaced).toBeGreaterThan(200);
    expect(all.refused).toBeGreaterThan(50);
    expect(all.gaveUp).toBeLessThan(0.03 * all.touches);
  });
});
