/** The two running sums of a tabular CUSUM and whether either has passed its limit. */
export interface CusumPoint {
  readonly high: number;
  readonly low: number;
  readonly signal: boolean;
}

/**
 * Two-sided tabular CUSUM, one value at a time (NIST/SEMATECH e-Handbook of Statistical Methods,
 * 6.3.2.3): `high` gathers what lies more than `slack` above the target, `low` what lies more than
 * `slack` below; a sum above `limit` signals. `highSince` and `lowSince` count the values since each
 * sum last rested at 0: where the change is likely to have begun.
 */
export class Cusum {
  high = 0;
  low = 0;
  highSince = 0;
  lowSince = 0;
  private readonly slack: number;
  private readonly limit: number;

  constructor(slack: number, limit: number) {
    this.slack = slack;
    this.limit = limit;
  }

  /** Takes the next value's distance from the target; returns 1, -1 or 0: signal up, down, none. */
  push(off: number): 1 | -1 | 0 {
    this.high = Math.max(0, this.high + off - this.slack);
    this.low = Math.max(0, this.low - off - this.slack);
    this.highSince = this.high > 0 ? this.highSince + 1 : 0;
    this.lowSince = this.low > 0 ? this.lowSince + 1 : 0;
    if (this.high > this.limit) return 1;
    return this.low > this.limit ? -1 : 0;
  }

  reset(): void {
    this.high = 0;
    this.low = 0;
    this.highSince = 0;
    this.lowSince = 0;
  }
}

/** The CUSUM of a whole series about `target`, as the e-Handbook tabulates it. */
export function cusumChart(
  values: readonly number[],
  target: number,
  slack: number,
  limit: number,
): CusumPoint[] {
  const chart = new Cusum(slack, limit);
  return values.map((value) => {
    const signal = chart.push(value - target) !== 0;
    return { high: chart.high, low: chart.low, signal };
  });
}

/** The next exponentially weighted moving average (e-Handbook 6.3.2.4). */
export function ewmaNext(last: number, value: number, weight: number): number {
  return weight * value + (1 - weight) * last;
}

/** The moving average of a whole series, its start first: one longer than `values`. */
export function ewmaChart(values: readonly number[], start: number, weight: number): number[] {
  const out = [start];
  for (const value of values) out.push(ewmaNext(out[out.length - 1]!, value, weight));
  return out;
}

/**
 * Half width of the EWMA control band after `count` values (`Infinity` = steady state), for values
 * of standard deviation `sd` and a band of `sigmas` (e-Handbook 6.3.2.4).
 */
export function ewmaBand(sd: number, weight: number, sigmas = 3, count = Number.POSITIVE_INFINITY) {
  const settled = weight / (2 - weight);
  return sigmas * sd * Math.sqrt(settled * (1 - (1 - weight) ** (2 * count)));
}
