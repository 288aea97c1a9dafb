import type { TraceColumns } from '../../core/trace/sample.ts';

/** Amps at a time of a run, before the supply's last digit. */
export type Draw = (atS: number) => number;

/** Rises in steps and runs, busy, at about `runA`. */
export const wakes =
  (runA: number): Draw =>
  (atS) => {
    if (atS < 1) return 0;
    if (atS < 3) return 0.03 * runA;
    if (atS < 4.5) return 0.3 * runA;
    if (atS < 6) return 0.6 * runA;
    return runA * (1 + 0.12 * Math.sin(atS * 1.9) + 0.06 * Math.sin(atS * 7.3));
  };

/** Rises once and stays flat, well short of running. */
export const stallsAt =
  (levelA: number): Draw =>
  (atS) =>
    atS < 1 ? 0 : atS < 2.5 ? 0.019 : levelA;

/** Gives up and tries again, every 2.2 s. */
export const loops: Draw = (atS) => (atS < 1 ? 0 : atS % 2.2 < 0.8 ? 0.31 : 0.02);

/** Flat from the start, as a healthy controller runs. */
export const runsFlatAt =
  (levelA: number): Draw =>
  (atS) =>
    atS < 1 ? 0 : levelA;

/** A draw as a supply at 20 Hz reads it: 1 mA and 10 mV steps, output on after the first second. */
export function supplyTrace(draw: Draw, o: { seconds: number; setV: number }): TraceColumns {
  const count = Math.round(o.seconds * 20);
  let seed = 41;
  const noise = () => {
    seed = (seed * 48_271) % 2_147_483_647;
    return seed / 2_147_483_647 - 0.5;
  };
  const ticks = new Float64Array(count);
  const volts = new Float64Array(count);
  const amps = new Float64Array(count);
  const regulation = new Uint8Array(count);
  for (let i = 0; i < count; i += 1) {
    const atS = i / 20;
    const isOn = atS >= 1;
    ticks[i] = i * 500;
    amps[i] = Number((draw(atS) + 0.0015 * noise()).toFixed(3));
    volts[i] = Number((isOn ? o.setV - 0.11 * amps[i]! + 0.012 * noise() : 0).toFixed(2));
    regulation[i] = isOn ? 1 : 3;
  }
  return { ticks, volts, amps, regulation };
}
