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

/** The board with what its rails' expected ohms and diode readings have learned from good boards. */
export function boardWithKnownGood(
  board: BoardModel,
  readings: readonly GoodReading[],
): BoardModel {
  const learned = (rail: Rail, quantity: GoodReading['quantity'], stated: KnownGood | null) => {
    const values = readings
      .filter((reading) => reading.rail === rail.name && reading.quantity === quantity)
      .map(({ value }) => value);
    return learnKnownGood(values) ?? stated;
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
