/** One figure of the bench, beside what the same work costs without us. */
export interface Measure {
  readonly name: string;
  readonly value: number;
  readonly unit: string;
  readonly baseline: { readonly name: string; readonly value: number } | null;
  /** `value / baseline`; null without a baseline. */
  readonly ratio: number | null;
  /** What we want of it, in words. */
  readonly aim: string;
}

/** Puts a figure beside its baseline. */
export function measure(
  name: string,
  value: number,
  unit: string,
  aim: string,
  baseline: Measure['baseline'] = null,
): Measure {
  return {
    name,
    value,
    unit,
    baseline,
    ratio: baseline === null ? null : value / baseline.value,
    aim,
  };
}

/** The middle value: one slow round on a shared machine moves it little. */
export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const half = sorted.length >> 1;
  return sorted.length % 2 === 1 ? sorted[half]! : (sorted[half - 1]! + sorted[half]!) / 2;
}

/** A figure as people read it: three significant digits. */
export function short(value: number): string {
  return value >= 1000
    ? Math.round(value).toLocaleString('en')
    : Number(value.toPrecision(3)).toString();
}
