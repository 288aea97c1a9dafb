import { TICKS_PER_SECOND, type TraceColumns } from '../trace/sample.ts';
import { BAND_SPAN_S, BAND_STEP_S } from './known-good-band.ts';

/** Points of a band. */
export const BAND_POINTS = Math.round(BAND_SPAN_S / BAND_STEP_S);

/**
 * Mean amps or watts of a run in each step of a band, counted from `startS` (seconds of the run).
 * and up to `endS` (output off). NaN where it has no reading. A reading of volts that was not taken stands for the last one.
 */
export function runCurve(
  { ticks, volts, amps }: TraceColumns,
  startS: number,
  quantity: 'amps' | 'watts',
  endS = Number.POSITIVE_INFINITY,
): Float64Array {
  const sums = new Float64Array(BAND_POINTS);
  const counts = new Float64Array(BAND_POINTS);
  let feed = Number.NaN;
  for (let i = 0; i < ticks.length; i += 1) {
    if (ticks[i]! >= endS * TICKS_PER_SECOND) break;
    if (!Number.isNaN(volts[i]!)) feed = volts[i]!;
    const level = quantity === 'amps' ? amps[i]! : amps[i]! * feed;
    const at = Math.floor((ticks[i]! / TICKS_PER_SECOND - startS) / BAND_STEP_S);
    if (at < 0 || at >= BAND_POINTS || !Number.isFinite(level)) continue;
    sums[at]! += level;
    counts[at]! += 1;
  }
  return sums.map((sum, i) => (counts[i] === 0 ? Number.NaN : sum / counts[i]!));
}

/** Steps up to and with the last that has a reading. */
export function curveEnd(curve: Float64Array): number {
  return curve.findLastIndex((level) => !Number.isNaN(level)) + 1;
}
