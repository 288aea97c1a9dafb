import type { Followed } from '../../core/attention/attention-settings.ts';
import { pitchOf } from '../../core/attention/pitch.ts';
import type { BenchState } from '../../core/contract/bench-calls.ts';

/** The pitch for what is followed, from the bench as it is now; null = silence. */
export function followedPitch(what: Followed, bench: BenchState | null): number | null {
  if (what === 'off' || bench === null) return null;
  const { supply, meter } = bench;
  if (what === 'draw') {
    return supply.link === 'live' && supply.outputOn !== false
      ? pitchOf('draw', supply.amps)
      : null;
  }
  const isWanted = meter.quantity === (what === 'ohms' ? 'ohms' : 'volts');
  if (meter.link !== 'live' || meter.overload || !isWanted) return null;
  return pitchOf(what, meter.value);
}
