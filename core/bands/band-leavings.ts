import { formatQuantity } from '../units/format.ts';
import { ANCHOR_WORDS } from './band-anchor.ts';
import { BAND_STEP_S, type BandVariant, type KnownGoodBand } from './known-good-band.ts';

/** A stretch in which a run is outside the known-good band. Seconds of the run. */
export interface Leaving {
  readonly fromS: number;
  /** Null while it has not come back. */
  readonly toS: number | null;
  readonly side: 'above' | 'below';
  /** The most that it was beyond the edge, in amps (watts), always positive. */
  readonly most: number;
  /** When and by how much, in words. */
  readonly words: string;
}

/** What a run does against a band. */
export interface BandVerdict {
  readonly leavings: readonly Leaving[];
  /** Which of the band's variants the run is nearest to. */
  readonly variant: number;
  /** Seconds of the run up to which the band says anything. */
  readonly judgedToS: number;
}

/** Steps outside on end before a run has left: one spike is no leaving. */
const STEPS_TO_LEAVE = 3;

/**
 * Where a run leaves a band: `curve` is its `runCurve` in the band's quantity, counted from
 * `startS`, its own anchor. A board that boots in several ways has left only when it is outside
 * all of them. A run is outside once three steps on end (0.6 s) are; steps without readings, and
 * beyond the band's end, are not judged.
 */
export function bandLeavings(
  band: KnownGoodBand,
  curve: Float64Array,
  startS: number,
): BandVerdict {
  const outside = band.variants.map((variant) => beyondEdges(variant, curve));
  const amount = (steps: Float64Array) => steps.reduce((sum, one) => sum + (Math.abs(one) || 0), 0);
  const amounts = outside.map(amount);
  const nearest = amounts.indexOf(Math.min(...amounts));
  const variant = band.variants[nearest]!;
  const beyond = outside[nearest]!.map((one, i) =>
    outside.some((steps) => steps[i] === 0) ? 0 : one,
  );
  const leavings: Leaving[] = [];
  const judged = Math.min(variant.low.length, curve.findLastIndex((one) => !Number.isNaN(one)) + 1);
  for (let at = 0; at < judged; ) {
    const side = Math.sign(beyond[at]!);
    if (!(side !== 0)) {
      at += 1;
      continue;
    }
    let end = at;
    let steps = 0;
    let worst = at;
    for (; end < judged && !(beyond[end]! === 0 || Math.sign(beyond[end]!) === -side); end += 1) {
      if (Number.isNaN(beyond[end]!)) continue;
      steps += 1;
      if (Math.abs(beyond[end]!) > Math.abs(beyond[worst]!)) worst = end;
    }
    if (steps >= STEPS_TO_LEAVE) {
      const isBack = end < judged;
      leavings.push({
        fromS: startS + at * BAND_STEP_S,
        toS: isBack ? startS + end * BAND_STEP_S : null,
        side: side > 0 ? 'above' : 'below',
        most: Math.abs(beyond[worst]!),
        words: leavingWords(band, { variant, curve, beyond, at, end: isBack ? end : null, worst }),
      });
    }
    at = Math.max(end, at + 1);
  }
  return { leavings, variant: nearest, judgedToS: startS + judged * BAND_STEP_S };
}

/** How far each step is above (positive) or below the band; 0 inside, NaN where not judged. */
function beyondEdges({ low, high }: BandVariant, curve: Float64Array): Float64Array {
  return curve.map((level, i) => {
    if (i >= low.length || Number.isNaN(level) || Number.isNaN(low[i]!)) return Number.NaN;
    if (level > high[i]!) return level - high[i]!;
    return level < low[i]! ? level - low[i]! : 0;
  });
}

function leavingWords(
  band: KnownGoodBand,
  o: {
    variant: BandVariant;
    curve: Float64Array;
    beyond: Float64Array;
    at: number;
    end: number | null;
    worst: number;
  },
): string {
  const { low, high } = o.variant;
  const unit = band.quantity === 'amps' ? 'A' : 'W';
  const level = (value: number) => formatQuantity(value, unit, null, { digits: 2 });
  const seconds = (steps: number) => `${(steps * BAND_STEP_S).toFixed(1)} s`;
  const by = o.beyond[o.worst]!;
  const range = `${level(Math.max(0, low[o.worst]!))} to ${level(high[o.worst]!)}`;
  const back = o.end === null ? '' : `, back after ${seconds(o.end - o.at)}`;
  return (
    `${seconds(o.at)} after ${ANCHOR_WORDS[band.anchor]} it leaves the known-good band, ` +
    `up to ${level(Math.abs(by))} ${by > 0 ? 'above' : 'below'}${back} ` +
    `(${level(o.curve[o.worst]!)} where good runs draw ${range}).`
  );
}
