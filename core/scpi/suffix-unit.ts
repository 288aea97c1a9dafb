/** Units that a program number may carry. */
export type SuffixUnit = 'V' | 'A' | 'OHM' | 'W' | 'HZ' | 'S';

const UNITS: readonly SuffixUnit[] = ['OHM', 'HZ', 'V', 'A', 'W', 'S'];

/** IEEE 488.2 table 7-2; `M` is mega before OHM and HZ, milli before anything else. */
const MULTIPLIERS: Readonly<Record<string, number>> = {
  EX: 1e18,
  PE: 1e15,
  T: 1e12,
  G: 1e9,
  MA: 1e6,
  K: 1e3,
  M: 1e-3,
  U: 1e-6,
  N: 1e-9,
  P: 1e-12,
  F: 1e-15,
  A: 1e-18,
};

/** Reads a suffix such as `mV`, `MOHM` or `s`: its unit and what to multiply by; null = unknown. */
export function suffixUnit(suffix: string): { unit: SuffixUnit; factor: number } | null {
  const upper = suffix.toUpperCase();
  for (const unit of UNITS) {
    if (!upper.endsWith(unit)) continue;
    const letters = upper.slice(0, upper.length - unit.length);
    if (letters === '') return { unit, factor: 1 };
    if (letters === 'M' && (unit === 'OHM' || unit === 'HZ')) return { unit, factor: 1e6 };
    const factor = MULTIPLIERS[letters];
    if (factor !== undefined) return { unit, factor };
  }
  return null;
}
