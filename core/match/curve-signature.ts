import { TICKS_PER_SECOND, type TraceColumns } from '../trace/sample.ts';

/** Points of a signature. */
export const SIGNATURE_POINTS = 64;
/** Seconds that a signature reaches over. */
const SPAN_S = 60;
/** Times are told apart by this at the start, and by a share of the time later. */
const EARLY_S = 0.25;
/** What levels are told apart by when they are small: 50 mW, or 10 mA without volts. */
const SMALL = { watts: 0.05, amps: 0.01 } as const;
/** A draw has begun when it is this much above where it stood before. */
const BEGUN = { watts: 0.06, amps: 0.012 } as const;

/** A run's curve, small enough to compare with thousands. */
export interface CurveSignature {
  /** Watts where the run has volts, so that the feed's volts do not matter; else amps. */
  readonly quantity: 'watts' | 'amps';
  /**
   * Levels above the base, as logarithms to base 2 of 1 + level / 50 mW (10 mA), at times that
   * lie ever further apart: a run that is a third slower is the same curve a few points later.
   * Holds its last level beyond `known`.
   */
  readonly shape: Float64Array;
  /** Points that the run really reached. */
  readonly known: number;
  /** The lowest level that it held, in watts or amps. */
  readonly base: number;
  /** Says what fed the board and what was plugged in; runs of other feeds are unlike. */
  readonly feed: string;
}

/**
 * The signature of a run. Counted from `startTick` (output on, wake request) where it is known,
 * else from where the draw begins, so a recording that began early or late is the same run. The
 * lowest level that it holds is taken off, so a steady load beside the board changes nothing. Null
 * when there is no reading, or less than three points of draw.
 */
export function curveSignature(
  columns: TraceColumns,
  feed: string,
  startTick: number | null = null,
): CurveSignature | null {
  const quantity = columns.volts.some((volts) => !Number.isNaN(volts)) ? 'watts' : 'amps';
  const level = levels(columns, quantity);
  const start = startTick ?? beginning(columns.ticks, level, BEGUN[quantity]);
  const { points, known } = resample(columns.ticks, level, start);
  if (known < 3) return null;
  const base = baseOf(points.subarray(0, known));
  const shape = points.map((value) => Math.log2(1 + Math.max(0, value - base) / SMALL[quantity]));
  return { quantity, shape, known, base, feed };
}

function levels({ volts, amps }: TraceColumns, quantity: 'watts' | 'amps'): Float64Array {
  if (quantity === 'amps') return amps;
  let last = Number.NaN;
  return amps.map((current, i) => {
    // A reading of volts that was not taken stands for the last one.
    if (!Number.isNaN(volts[i]!)) last = volts[i]!;
    return current * last;
  });
}

/**
 * Tick of the first reading that is clearly above what stood before it, or above nothing when the
 * recording begins with the draw on; the first tick if none.
 */
function beginning(ticks: Float64Array, level: Float64Array, clear: number): number {
  let lowest = 0;
  for (let i = 0; i < level.length; i += 1) {
    const value = level[i]!;
    if (Number.isNaN(value)) continue;
    if (value > lowest + clear) return ticks[i]!;
    if (value < lowest) lowest = value;
  }
  return ticks[0] ?? 0;
}

/** Mean level in each of the widening stretches of time. */
function resample(ticks: Float64Array, level: Float64Array, start: number) {
  const points = new Float64Array(SIGNATURE_POINTS);
  const counts = new Float64Array(SIGNATURE_POINTS);
  const stretch = SIGNATURE_POINTS / Math.log(1 + SPAN_S / EARLY_S);
  for (let i = 0; i < ticks.length; i += 1) {
    const seconds = (ticks[i]! - start) / TICKS_PER_SECOND;
    const value = level[i]!;
    if (seconds < 0 || Number.isNaN(value)) continue;
    const at = Math.floor(stretch * Math.log(1 + seconds / EARLY_S));
    if (at >= SIGNATURE_POINTS) break;
    points[at]! += value;
    counts[at]! += 1;
  }
  let known = 0;
  let held = Number.NaN;
  for (let at = 0; at < SIGNATURE_POINTS; at += 1) {
    if (counts[at]! > 0) {
      held = points[at]! / counts[at]!;
      known = at + 1;
    }
    points[at] = held;
  }
  const first = points.find((value) => !Number.isNaN(value)) ?? Number.NaN;
  return { points: points.map((value) => (Number.isNaN(value) ? first : value)), known };
}

/** The lowest level held for three points on end, so that one dip is no base. */
function baseOf(points: Float64Array): number {
  let base = Number.POSITIVE_INFINITY;
  for (let at = 2; at < points.length; at += 1) {
    base = Math.min(base, Math.max(points[at - 2]!, points[at - 1]!, points[at]!));
  }
  return base;
}
