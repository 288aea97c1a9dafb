import type { BoardModel, KnownGood, Rail } from './board-model.ts';

/** A reading that the technician marked as from a good board. */
export interface GoodReading {
  readonly rail: string;
  readonly quantity: 'ohms' | 'diode';
  readonly value: number;
}

/** From the median absolute deviation to a standard deviation of normal readings. */
const MAD_TO_SIGMA = 1.4826;

/**
 * Median, spread and count of readings from good boards, outliers barely moving either; the spread
 * is 1.4826 times the median absolute deviation. Null when there are none.
 * Median absolute deviation as a scale: Hampel 1974, the factor from memory.
 */
export function learnKnownGood(values: readonly number[]): KnownGood | null {
  if (values.length === 0) return null;
  const median = medianOf(values);
  const spread = MAD_TO_SIGMA * medianOf(values.map((value) => Math.abs(value - median)));
  return { median, spread, count: values.length };
}

/** At most so many readings stand for what a table states. */
const MOST_STATED = 15;

/**
 * A table's own known-good and what good boards have read since, as one: the stated count of readings
 * is laid out evenly over its median and spread, so that a single new reading does not overturn it.
 * A figure that was stated without a count gives way to the first reading.
 */
export function poolKnownGood(
  stated: KnownGood | null,
  values: readonly number[],
): KnownGood | null {
  const isCounted = stated !== null && stated.count > 1;
  if (!isCounted || values.length === 0) return learnKnownGood(values) ?? stated;
  const laid = Math.min(MOST_STATED, Math.max(1, stated.count));
  const readings = Array.from(
    { length: laid },
    (_, at) => stated.median + stated.spread * normalQuantile((at + 0.5) / laid),
  );
  const pooled = learnKnownGood([...readings, ...values]);
  return pooled === null ? null : { ...pooled, count: stated.count + values.length };
}

/** Quantile of the standard normal by Tukey's lambda, within 0.02 (from memory). */
function normalQuantile(p: number): number {
  return (p ** 0.135 - (1 - p) ** 0.135) / 0.1975;
}

/** The board with what its rails' expected ohms and diode readings have learned from good boards. */
export function boardWithKnownGood(
  board: BoardModel,
  readings: readonly GoodReading[],
): BoardModel {
  const learned = (rail: Rail, quantity: GoodReading['quantity'], stated: KnownGood | null) => {
    const values = readings
      .filter((reading) => reading.rail === rail.name && reading.quantity === quantity)
      .map(({ value }) => value);
    return poolKnownGood(stated, values);
  };
  return {
    ...board,
    rails: board.rails.map((rail) => ({
      ...rail,
      expectedOhms: learned(rail, 'ohms', rail.expectedOhms),
      expectedDiodeV: learned(rail, 'diode', rail.expectedDiodeV),
    })),
  };
}

export function medianOf(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  const middle = sorted.length >> 1;
  const upper = sorted[middle] ?? Number.NaN;
  return sorted.length % 2 === 1 ? upper : ((sorted[middle - 1] ?? upper) + upper) / 2;
}
