import type { TraceWindow } from '../trace/sample.ts';

/** No bench instrument resolves finer than this; what lies beyond is the noise of doubles. */
const MOST_DECIMALS = 7;

/**
 * Digits after the point that an instrument showed, seen from its own readings (`values`, base
 * units, `NaN` = not told): the longest decimal among them. Null when there is no reading.
 */
export function decimalsSeen(values: Iterable<number>): number | null {
  let most: number | null = null;
  for (const value of values) {
    if (!Number.isFinite(value)) continue;
    most ??= 0;
    // In whole steps of the finest digit: thousands of values are looked at for a printed page.
    const steps = Math.round(Math.abs(value) * 10 ** MOST_DECIMALS);
    while (most < MOST_DECIMALS && steps % 10 ** (MOST_DECIMALS - most) !== 0) most += 1;
    if (most >= MOST_DECIMALS) return most;
  }
  return most;
}

/** What the supply of a run resolved, from the lowest and highest readings of each column. */
export function windowDecimals(window: TraceWindow): { amps: number | null; volts: number | null } {
  const both = (low: Float64Array, high: Float64Array) => {
    const a = decimalsSeen(taken(low, window.count));
    const b = decimalsSeen(taken(high, window.count));
    return a === null || b === null ? (a ?? b) : Math.max(a, b);
  };
  return {
    amps: both(window.ampsMin, window.ampsMax),
    volts: both(window.voltsMin, window.voltsMax),
  };
}

function* taken(values: Float64Array, count: Float64Array): Generator<number> {
  for (let i = 0; i < values.length; i += 1) if (count[i] !== 0) yield values[i]!;
}
