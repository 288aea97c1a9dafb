import { BAND_STEP_S } from '../../core/bands/known-good-band.ts';
import { BAND_POINTS } from '../../core/bands/run-curve.ts';
import { TICKS_PER_SECOND, type TraceWindow } from '../../core/trace/sample.ts';

/**
 * The curve of a run as a band judges it (see `runCurve`), from a window of the run that begins at
 * `fromTick`: mean amps or watts of each step, NaN without a reading.
 */
export function curveOfWindow(
  window: TraceWindow,
  fromTick: number,
  quantity: 'amps' | 'watts',
): Float64Array {
  const sums = new Float64Array(BAND_POINTS);
  const counts = new Float64Array(BAND_POINTS);
  for (let i = 0; i < window.tick.length; i += 1) {
    const count = window.count[i]!;
    const level =
      quantity === 'amps' ? window.ampsMean[i]! : window.ampsMean[i]! * window.voltsMean[i]!;
    const at = Math.floor((window.tick[i]! - fromTick) / TICKS_PER_SECOND / BAND_STEP_S);
    if (count === 0 || at < 0 || at >= BAND_POINTS || !Number.isFinite(level)) continue;
    sums[at]! += level * count;
    counts[at]! += count;
  }
  return sums.map((sum, i) => (counts[i] === 0 ? Number.NaN : sum / counts[i]!));
}
