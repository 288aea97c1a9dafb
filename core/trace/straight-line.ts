import { meanOf } from './statistics.ts';

/** A least-squares line through points, with what it leaves over. */
export interface StraightLine {
  readonly intercept: number;
  readonly slope: number;
  /** Sum of squared residuals. */
  readonly residualSquares: number;
  /** Sum of squares that the line explains. */
  readonly explainedSquares: number;
}

/**
 * Fits y = intercept + slope x by (weighted) least squares about the means. With all `x` alike the
 * slope is 0.
 */
export function fitLine(
  x: ArrayLike<number>,
  y: ArrayLike<number>,
  weights?: ArrayLike<number>,
): StraightLine {
  let mx = meanOf(x);
  let my = meanOf(y);
  if (weights !== undefined) {
    let w = 0;
    let wx = 0;
    let wy = 0;
    for (let i = 0; i < x.length; i++) {
      w += weights[i]!;
      wx += weights[i]! * (x[i]! - mx);
      wy += weights[i]! * (y[i]! - my);
    }
    mx += wx / w;
    my += wy / w;
  }
  let sxx = 0;
  let sxy = 0;
  let syy = 0;
  for (let i = 0; i < x.length; i++) {
    const w = weights === undefined ? 1 : weights[i]!;
    const dx = x[i]! - mx;
    const dy = y[i]! - my;
    sxx += w * dx * dx;
    sxy += w * dx * dy;
    syy += w * dy * dy;
  }
  const slope = sxx > 0 ? sxy / sxx : 0;
  const explained = sxx > 0 ? (sxy * sxy) / sxx : 0;
  return {
    intercept: my - slope * mx,
    slope,
    residualSquares: Math.max(0, syy - explained),
    explainedSquares: explained,
  };
}
