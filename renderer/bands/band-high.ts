import { BAND_STEP_S } from '../../core/bands/known-good-band.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { TickRange } from '../trace/trace-view.ts';
import type { ShownBand } from './shown-band.ts';

/** The highest amps of the band in the stretch on screen, so that the axis makes room for it. */
export function bandHigh(shown: ShownBand | null, { fromTick, toTick }: TickRange): number {
  if (shown === null) return 0;
  const step = BAND_STEP_S * TICKS_PER_SECOND;
  const { high } = shown.variant;
  const from = Math.max(0, Math.floor((fromTick - shown.startTick) / step));
  const to = Math.min(high.length, Math.ceil((toTick - shown.startTick) / step));
  let found = 0;
  for (let i = from; i < to; i += 1) if (high[i]! > found) found = high[i]!;
  return found * shown.toAmps;
}
