/** Lowest and highest value of a series within `radius` places of each of its points. */
export interface Envelope {
  readonly low: Float64Array;
  readonly high: Float64Array;
}

/** The envelope of a series (Keogh 2002). */
export function envelopeOf(series: ArrayLike<number>, radius: number): Envelope {
  const n = series.length;
  const low = new Float64Array(n);
  const high = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    let least = Number.POSITIVE_INFINITY;
    let most = Number.NEGATIVE_INFINITY;
    for (let j = Math.max(0, i - radius); j <= Math.min(n - 1, i + radius); j += 1) {
      const value = series[j]!;
      if (value < least) least = value;
      if (value > most) most = value;
    }
    low[i] = least;
    high[i] = most;
  }
  return { low, high };
}

/**
 * A bound that the warping distance of `series` to the enveloped series is never below (LB_Keogh),
 * for one length, one radius and one tolerance. Not symmetric. Gives up, with what it has so far,
 * once that is beyond `limit`.
 */
export function warpingBound(
  { low, high }: Envelope,
  series: ArrayLike<number>,
  tolerance = 0,
  limit = Number.POSITIVE_INFINITY,
): number {
  const most = limit * limit;
  let sum = 0;
  for (let i = 0; i < low.length && sum <= most; i += 1) {
    const value = series[i]!;
    const outside = Math.max(low[i]! - value, value - high[i]!) - tolerance;
    if (outside > 0) sum += outside * outside;
  }
  return Math.sqrt(sum);
}
