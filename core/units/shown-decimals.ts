import type { Quantity } from '../job/job.ts';

/** Most digits after the point (base units) that mean anything at a bench. */
const MOST: Readonly<Record<Quantity, number>> = {
  volts: 5,
  diode: 4,
  ohms: 3,
  continuity: 1,
  amps: 6,
};
/** Digits before and after the point together that bench meters show. Common practice, no source. */
const MOST_TOGETHER = 6;

/**
 * The instrument's digits after the point, without those that are only its way of writing numbers:
 * meters that answer in exponents write digits far below their own last one.
 */
export function shownDecimals(quantity: Quantity, decimals: number, value: number | null): number {
  const before =
    value === null || Math.abs(value) < 1 ? 1 : Math.floor(Math.log10(Math.abs(value))) + 1;
  return Math.max(0, Math.min(decimals, MOST[quantity], MOST_TOGETHER - before));
}
