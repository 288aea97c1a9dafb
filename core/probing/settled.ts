/*
 * When a meter reading counts as settled. Common practice, no source, except the least-squares
 * slope and its standard error (NIST/SEMATECH e-Handbook of Statistical Methods, 4.1.4.1).
 *
 * A stretch of readings is the newest n of one contact in one function. It is settled when
 *
 *  1. it is long enough: n >= 4 and it spans >= 500 ms. Contact chatter and a slipping tip last one
 *     or two readings of a bench meter (100 to 400 ms each), so no slip fills a stretch.
 *  2. it agrees. With tol = the largest of 0.2 % of the value, 3 digits of the meter's resolution
 *     and the quantity's floor (20 uV, 10 mohm, 1 mV of diode, 1 ohm of continuity, 20 uA):
 *     either every reading lies within tol of the mean, or, on a noisy point, n >= 8, the standard
 *     deviation s is at most 1 % of the value, s / sqrt(n) <= tol, and none is farther than 3.5 s.
 *     Noise is told from chatter by its size: two different contacts differ by more than 1 %.
 *  3. it does not move: (|slope| + its error) x 5 s <= max(tol, s), where the error is the larger of
 *     the slope's standard error and one digit over the stretch, because a drift of less than a
 *     digit is not seen at all: a coarse meter must be watched for longer, and so must a noisy
 *     point (the standard error falls with n^1.5). A charging capacitor of time constant T is then
 *     within tol x T / 5 s of its end, so that up to 5 s it is within tolerance. The slope is what
 *     tells a slow rise from a settled value: agreement alone takes a rail that creeps.
 *
 * The value taken is the reading of the stretch nearest to its mean: one that the meter showed,
 * never one that was computed. Overload is settled by rule 1 alone.
 */
import type { Quantity } from '../job/job.ts';

/** One reading inside a contact. `value` null = overload. */
export interface ContactReading {
  readonly value: number | null;
  readonly decimals: number;
  readonly tMs: number;
}

export const MIN_READINGS = 4;
export const MIN_SPAN_MS = 500;
const SHARE = 0.002;
const DIGITS = 3;
const FLOOR: Readonly<Record<Quantity, number>> = {
  volts: 20e-6,
  ohms: 0.01,
  diode: 1e-3,
  continuity: 1,
  amps: 20e-6,
};
const NOISY_READINGS = 8;
const NOISY_SHARE = 0.01;
const NOISY_REACH = 3.5;
const HORIZON_S = 5;

/** How far two readings of one settled point may lie apart from their mean, in base units. */
export function toleranceOf(quantity: Quantity, value: number, decimals: number): number {
  return Math.max(SHARE * Math.abs(value), DIGITS * 10 ** -decimals, FLOOR[quantity]);
}

/**
 * The reading to take from `contact` (oldest first, one contact in one function), or null while
 * none of its newest stretches is settled. Looks at the shortest stretch first.
 */
export function findSettled<R extends ContactReading>(
  contact: readonly R[],
  quantity: Quantity,
): R | null {
  const last = contact.at(-1);
  if (last === undefined) return null;
  if (last.value === null) return settledOverload(contact);
  let n = 0;
  let sumT = 0;
  let sumX = 0;
  let sumTT = 0;
  let sumXX = 0;
  let sumTX = 0;
  let low = Number.POSITIVE_INFINITY;
  let high = Number.NEGATIVE_INFINITY;
  // Meters that leave closing noughts away show fewer digits than they resolve.
  let decimals = 0;
  for (let at = contact.length - 1; at >= 0; at -= 1) {
    const { value, tMs } = contact[at]!;
    if (value === null) return null;
    decimals = Math.max(decimals, contact[at]!.decimals);
    // Against the newest, so that the sums of squares do not cancel away what they are for.
    const x = value - last.value;
    const t = (tMs - last.tMs) / 1000;
    n += 1;
    sumT += t;
    sumX += x;
    sumTT += t * t;
    sumXX += x * x;
    sumTX += t * x;
    low = Math.min(low, x);
    high = Math.max(high, x);
    if (n < MIN_READINGS || -t * 1000 < MIN_SPAN_MS) continue;
    const mean = sumX / n;
    const spread = Math.max(0, sumXX / n - mean * mean);
    const s = Math.sqrt((spread * n) / (n - 1));
    const tol = toleranceOf(quantity, mean + last.value, decimals);
    const reach = Math.max(high - mean, mean - low);
    const size = Math.max(Math.abs(mean + last.value), FLOOR[quantity] / SHARE);
    const agrees = reach <= tol || isNoiseOnly(n, s, reach, size, tol);
    if (!agrees) continue;
    const across = sumTT - (sumT * sumT) / n;
    const slope = (sumTX - (sumT * sumX) / n) / across;
    const left = Math.max(0, spread * n - slope * slope * across);
    const error = Math.sqrt(left / (n - 2) / across);
    const unseen = 10 ** -decimals / -t;
    const drift = Math.abs(slope) + Math.max(error, unseen);
    if (drift * HORIZON_S > Math.max(tol, s)) continue;
    return nearest(contact.slice(at), mean + last.value);
  }
  return null;
}

function isNoiseOnly(n: number, s: number, reach: number, size: number, tol: number): boolean {
  if (n < NOISY_READINGS || s > NOISY_SHARE * size) return false;
  return s / Math.sqrt(n) <= tol && reach <= NOISY_REACH * s;
}

function nearest<R extends ContactReading>(stretch: readonly R[], to: number): R {
  return stretch.reduce((best, one) =>
    Math.abs(one.value! - to) <= Math.abs(best.value! - to) ? one : best,
  );
}

function settledOverload<R extends ContactReading>(contact: readonly R[]): R | null {
  const last = contact.at(-1)!;
  let n = 0;
  for (let at = contact.length - 1; at >= 0; at -= 1) {
    const one = contact[at]!;
    if (one.value !== null) return null;
    n += 1;
    if (n >= MIN_READINGS && last.tMs - one.tMs >= MIN_SPAN_MS) return last;
  }
  return null;
}
