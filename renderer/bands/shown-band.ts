import { ANCHORS, anchorS, offAfterS } from '../../core/bands/band-anchor.ts';
import { bandLeavings, type Leaving } from '../../core/bands/band-leavings.ts';
import {
  BAND_SPAN_S,
  BAND_STEP_S,
  type BandFound,
  type BandVariant,
  type KnownGoodBand,
} from '../../core/bands/known-good-band.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { curveOfWindow } from './curve-of-window.ts';

/** A band laid behind a run: where it begins on the run's clock, and where the run leaves it. */
export interface ShownBand {
  readonly band: KnownGoodBand;
  readonly variant: BandVariant;
  readonly startTick: number;
  /** Factor from the band's quantity to amps on screen: 1, or one over the feed's volts. */
  readonly toAmps: number;
  readonly leavings: readonly Leaving[];
}

/**
 * Lays the band behind a run: counted from its wake request when both have one, else from output
 * on. Null when there is no band, or nothing to turn its watts into amps with.
 */
export function shownBand(
  found: BandFound | null,
  report: StageReport | null,
  source: TraceSource,
  feedV: number | null,
): ShownBand | null {
  if (found === null || report === null) return null;
  for (const anchor of ANCHORS) {
    const band = found.bands.find((one) => one.anchor === anchor);
    const startS = anchorS(report, anchor);
    if (band === undefined || startS === null) continue;
    if (band.quantity === 'watts' && !(feedV !== null && feedV > 0)) return null;
    const startTick = Math.round(startS * TICKS_PER_SECOND);
    // What comes after output off is not judged.
    const spanS = Math.min(BAND_SPAN_S, offAfterS(report, startS) - BAND_STEP_S - startS);
    const points = Math.max(1, Math.floor(spanS / BAND_STEP_S));
    const toTick = startTick + points * BAND_STEP_S * TICKS_PER_SECOND;
    const window = source.window(startTick, toTick, points);
    const curve = curveOfWindow(window, startTick, band.quantity);
    const { leavings, variant } = bandLeavings(band, curve, startS);
    return {
      band,
      variant: band.variants[variant]!,
      startTick,
      toAmps: band.quantity === 'amps' ? 1 : 1 / feedV!,
      leavings,
    };
  }
  return null;
}
