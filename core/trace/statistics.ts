/** Mean and spread of a series taken one value at a time (Welford's method, mergeable). */
export class RunningMoments {
  count = 0;
  mean = 0;
  /** Sum of squared deviations from the mean. */
  squares = 0;

  push(value: number): void {
    this.count++;
    const off = value - this.mean;
    this.mean += off / this.count;
    this.squares += off * (value - this.mean);
  }

  /** Sample variance (n - 1); 0 for fewer than two values. */
  variance(): number {
    return this.count > 1 ? this.squares / (this.count - 1) : 0;
  }

  /** Sample standard deviation (n - 1); 0 for fewer than two values. */
  sd(): number {
    return Math.sqrt(this.variance());
  }
}

/** Mean of the values; NaN of none. Two passes, so that large offsets cost no digits. */
export function meanOf(values: ArrayLike<number>): number {
  if (values.length === 0) return Number.NaN;
  let sum = 0;
  for (let i = 0; i < values.length; i++) sum += values[i]!;
  const first = sum / values.length;
  let rest = 0;
  for (let i = 0; i < values.length; i++) rest += values[i]! - first;
  return first + rest / values.length;
}

/** Sample standard deviation (n - 1) in two passes with the mean's rounding error taken back. */
export function sdOf(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  let squares = 0;
  let sum = 0;
  for (let i = 0; i < values.length; i++) {
    const off = values[i]! - mean;
    squares += off * off;
    sum += off;
  }
  return Math.sqrt((squares - (sum * sum) / values.length) / (values.length - 1));
}

/** Lag-1 autocorrelation as NIST's StRD defines it: lagged products over the sum of squares. */
export function lagOneCorrelation(values: ArrayLike<number>): number {
  const mean = meanOf(values);
  let products = 0;
  let squares = 0;
  for (let i = 0; i < values.length; i++) {
    const off = values[i]! - mean;
    squares += off * off;
    if (i > 0) products += off * (values[i - 1]! - mean);
  }
  return products / squares;
}

/** Root of the mean square of the values, each counted once. */
export function rmsOf(values: ArrayLike<number>): number {
  let squares = 0;
  for (let i = 0; i < values.length; i++) squares += values[i]! * values[i]!;
  return Math.sqrt(squares / values.length);
}

/** Middle value of the values (mean of the two middle ones of an even count); NaN of none. */
export function medianOf(values: ArrayLike<number>): number {
  if (values.length === 0) return Number.NaN;
  const sorted = Float64Array.from(values).sort();
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** The normal distribution's upper quartile: turns a median absolute deviation into a sigma. */
export const NORMAL_QUARTILE = 0.6744897501960817;

/**
 * Sigma of white noise from the median absolute first difference: level changes and outliers barely
 * move it. 0 for fewer than two values.
 */
export function sigmaFromDifferences(values: ArrayLike<number>): number {
  if (values.length < 2) return 0;
  const steps = new Float64Array(values.length - 1);
  for (let i = 1; i < values.length; i++) steps[i - 1] = Math.abs(values[i]! - values[i - 1]!);
  return medianOf(steps) / NORMAL_QUARTILE / Math.SQRT2;
}
