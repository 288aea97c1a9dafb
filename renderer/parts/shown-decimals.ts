import type { Quantity } from '../../core/job/job.ts';

/**
 * Most digits after the point (base units) that mean anything at a bench: meters that answer in
 * exponents write digits far below their own last one.
 */
const MOST: Readonly<Record<Quantity, number>> = {
  volts: 5,
  diode: 4,
  ohms: 3,
  continuity: 1,
  amps: 6,
};

/** The instrument's digits, without those that are only its way of writing numbers. */
export function shownDecimals(quantity: Quantity, decimals: number): number {
  return Math.min(decimals, MOST[quantity]);
}
