/** How two series may be laid over one another. */
export interface WarpingOptions {
  /** Most places that a point may be moved (Sakoe-Chiba radius). */
  readonly radius?: number;
  /** Give up, with infinity, once the distance is sure to be more than this. */
  readonly limit?: number;
  /** Added to the squared cost of each step that moves along one series only. */
  readonly penalty?: number;
  /** Differences up to this cost nothing. */
  readonly tolerance?: number;
}

/**
 * Dynamic time warping: the root of the least sum of squared differences over all ways to lay
 * `a` over `b` that keep order and both ends (Sakoe and Chiba 1978, steps 1-1-1). Infinite when the
 * lengths differ by more than the radius, or beyond `limit`. Two rows of memory.
 */
export function warpingDistance(
  a: ArrayLike<number>,
  b: ArrayLike<number>,
  options: WarpingOptions = {},
): number {
  const { penalty = 0, tolerance = 0, limit = Number.POSITIVE_INFINITY } = options;
  const n = a.length;
  const m = b.length;
  const radius = Math.min(options.radius ?? Number.POSITIVE_INFINITY, Math.max(n, m));
  if (n === 0 || m === 0 || Math.abs(n - m) > radius) return Number.POSITIVE_INFINITY;
  // A hair of slack: a limit that is a rounded root must still let its own distance pass.
  const most = limit * limit * (1 + 1e-12);
  let above = new Float64Array(m + 1).fill(Number.POSITIVE_INFINITY);
  let row = new Float64Array(m + 1);
  above[0] = 0;
  for (let i = 0; i < n; i += 1) {
    const from = Math.max(0, i - radius);
    const to = Math.min(m - 1, i + radius);
    row.fill(Number.POSITIVE_INFINITY);
    const value = a[i]!;
    let least = Number.POSITIVE_INFINITY;
    for (let j = from; j <= to; j += 1) {
      const difference = Math.max(0, Math.abs(value - b[j]!) - tolerance);
      const before = Math.min(above[j]!, above[j + 1]! + penalty, row[j]! + penalty);
      const cost = before + difference * difference;
      row[j + 1] = cost;
      if (cost < least) least = cost;
    }
    if (least > most) return Number.POSITIVE_INFINITY;
    [above, row] = [row, above];
  }
  const total = above[m]!;
  return total > most ? Number.POSITIVE_INFINITY : Math.sqrt(total);
}
