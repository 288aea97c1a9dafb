import { describe, expect, it } from 'vitest';
import type { ReadingLimit } from '../../../core/guard/guard-limit.ts';
import { readingGuard } from '../../../core/guard/reading-guard.ts';
import type { Sample } from '../../../core/trace/sample.ts';

const at = (atS: number, volts: number | null, amps: number | null, outputOn = true): Sample => ({
  tick: Math.round(atS * 10_000),
  volts,
  amps,
  regulation: null,
  outputOn,
});
const ampsOff: ReadingLimit = { on: 'amps', aboveA: 0.5, holdS: 0, action: 'off' };

describe('the reading guard', () => {
  it('trips on the first reading above its limit and names reading, limit and action', () => {
    const guard = readingGuard([ampsOff]);
    expect(guard.see(at(0, 5, 0.5))).toEqual([]);
    expect(guard.see(at(0.05, 5, 0.512))).toEqual([
      { limit: ampsOff, action: 'off', atS: 0.05, text: "0.512 A is above the guard's 0.5 A" },
    ]);
  });

  it('trips once while the reading stays above, and again after it was kept to', () => {
    const guard = readingGuard([{ ...ampsOff, action: 'alert' }]);
    const trips = [0.6, 0.6, 0.499, 0.6, 0.4, 0.6].map((a, i) => guard.see(at(i, 5, a)).length);
    expect(trips).toEqual([1, 0, 0, 0, 0, 1]);
  });

  it('switches off again each second that the output is on beyond its limit all the same', () => {
    const guard = readingGuard([ampsOff]);
    const trips = (times: readonly number[], isOn: boolean) =>
      times.map((atS) => guard.see(at(atS, 5, 0.6, isOn)).length);
    expect(trips([0, 0.5, 0.95, 1, 1.5, 2], true)).toEqual([1, 0, 0, 1, 0, 1]);
    expect(trips([4, 6, 8], false)).toEqual([0, 0, 0]);
  });

  it('lets an inrush shorter than its hold pass', () => {
    const guard = readingGuard([{ ...ampsOff, holdS: 0.3 }]);
    expect(guard.see(at(0, 5, 2))).toEqual([]);
    expect(guard.see(at(0.2, 5, 2))).toEqual([]);
    expect(guard.see(at(0.25, 5, 0.1))).toEqual([]);
    expect(guard.see(at(0.3, 5, 2))).toEqual([]);
    expect(guard.see(at(0.61, 5, 2))[0]?.text).toBe("2 A is above the guard's 0.5 A for 0.31 s");
  });

  it('counts energy from output on, by hand: 12 V x 1 A for 30 s is 0.1 Wh', () => {
    const guard = readingGuard([{ on: 'energy', aboveWh: 0.0999, action: 'alert' }]);
    guard.see(at(0, 0, 0, false));
    let trippedAtS = -1;
    for (let i = 0; i <= 700; i += 1) {
      const trips = guard.see(at(1 + i * 0.05, 12, 1));
      if (trips.length > 0 && trippedAtS < 0) trippedAtS = i * 0.05;
    }
    expect(trippedAtS).toBeCloseTo(30, 1);
  });

  it('goes on counting energy and time when limits are changed in between', () => {
    const guard = readingGuard([{ on: 'energy', aboveWh: 1, action: 'off' }]);
    for (let atS = 0; atS <= 20; atS += 1) guard.see(at(atS, 12, 1));
    guard.change([
      { on: 'energy', aboveWh: 0.0999, action: 'off' },
      { on: 'time', aboveS: 25, action: 'alert' },
    ]);
    const trippedAtS = new Map<string, number>();
    for (let atS = 21; atS <= 40; atS += 1) {
      for (const { limit } of guard.see(at(atS, 12, 1))) {
        if (!trippedAtS.has(limit.on)) trippedAtS.set(limit.on, atS);
      }
    }
    expect([...trippedAtS]).toEqual([
      ['time', 26],
      ['energy', 30],
    ]);
  });

  it('does not tell again of a limit that stays when another is added', () => {
    const alert: ReadingLimit = { ...ampsOff, action: 'alert' };
    const guard = readingGuard([alert]);
    expect(guard.see(at(0, 5, 0.6))).toHaveLength(1);
    guard.change([{ ...alert }, { on: 'volts', aboveV: 4, holdS: 0, action: 'alert' }]);
    expect(guard.see(at(1, 5, 0.6)).map(({ limit }) => limit.on)).toEqual(['volts']);
  });

  it('takes the larger power across a gap, so that a gap hides no energy', () => {
    const guard = readingGuard([{ on: 'energy', aboveWh: 0.019, action: 'off' }]);
    guard.see(at(0, 12, 0));
    expect(guard.see(at(6, 12, 1))).toHaveLength(1);
  });

  it('counts time from output on and starts again with the next output on', () => {
    const guard = readingGuard([{ on: 'time', aboveS: 10, action: 'off' }]);
    guard.see(at(0, 5, 0.1));
    expect(guard.see(at(10.1, 5, 0.1))).toHaveLength(1);
    guard.see(at(11, 5, 0.1, false));
    expect(guard.see(at(20, 5, 0.1))).toEqual([]);
    expect(guard.see(at(29, 5, 0.1))).toEqual([]);
    expect(guard.see(at(30.5, 5, 0.1))).toHaveLength(1);
  });

  it('is not tripped by a reading that was not told', () => {
    const guard = readingGuard([ampsOff, { on: 'watts', aboveW: 1, holdS: 0, action: 'off' }]);
    expect(guard.see(at(0, 5, null))).toEqual([]);
    expect(guard.see(at(1, null, 0.4))).toEqual([]);
  });
});
