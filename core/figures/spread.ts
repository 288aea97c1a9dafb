/** A row of numbers by its middle and its spread. */
export interface Spread {
  readonly count: number;
  readonly median: number;
  /** Half of the numbers lie between these two. */
  readonly low: number;
  readonly high: number;
  readonly least: number;
  readonly most: number;
}

/**
 * Median, quartiles and ends of some numbers; null when there are none. Quantiles by linear
 * interpolation between order statistics: definition 7 of Hyndman and Fan 1996, The American
 * Statistician 50:361.
 */
export function spreadOf(values: readonly number[]): Spread | null {
  if (values.length === 0) return null;
  const sorted = [...values].sort((a, b) => a - b);
  const at = (share: number): number => {
    const place = (sorted.length - 1) * share;
    const below = Math.floor(place);
    const low = sorted[below]!;
    const high = sorted[Math.min(below + 1, sorted.length - 1)]!;
    return low + (high - low) * (place - below);
  };
  return {
    count: sorted.length,
    median: at(0.5),
    low: at(0.25),
    high: at(0.75),
    least: sorted[0]!,
    most: sorted[sorted.length - 1]!,
  };
}
