import { CONDITIONS, OUTCOME_ODDS, VERDICTS } from './outcome-odds.ts';

const KINDS = CONDITIONS.length;

/** Entropy in bits of the verdict that each condition gives. */
const NOISE_BITS = Float64Array.from(CONDITIONS, (_, condition) => {
  let bits = 0;
  for (let verdict = 0; verdict < VERDICTS; verdict++) {
    const p = OUTCOME_ODDS[condition * VERDICTS + verdict] ?? 0;
    if (p > 0) bits -= p * Math.log2(p);
  }
  return bits;
});

/**
 * Mutual information in bits between the verdict of each measurement and which explanation holds:
 * entropy of the verdict less the mean entropy that chance leaves in it. `weights` need not sum to
 * 1; `rows` holds each explanation's conditions, `width` measurements long. Only `columns` are
 * computed; the rest of the result is 0.
 */
export function gainsBits(
  rows: readonly Uint8Array[],
  weights: ArrayLike<number>,
  width: number,
  columns: ArrayLike<number>,
): Float64Array {
  const gains = new Float64Array(width);
  // Explanation by explanation, so that each row is read once and in order: this is the hot loop.
  const shares = new Float64Array(columns.length * KINDS);
  let total = 0;
  for (let index = 0; index < rows.length; index++) {
    const weight = weights[index] ?? 0;
    const row = rows[index];
    if (weight === 0 || row === undefined) continue;
    total += weight;
    for (let at = 0; at < columns.length; at++) {
      const cell = at * KINDS + (row[columns[at] ?? 0] ?? 0);
      shares[cell] = (shares[cell] ?? 0) + weight;
    }
  }
  if (total <= 0) return gains;
  const outcome = new Float64Array(VERDICTS);
  for (let at = 0; at < columns.length; at++) {
    outcome.fill(0);
    let noise = 0;
    for (let condition = 0; condition < KINDS; condition++) {
      const share = (shares[at * KINDS + condition] ?? 0) / total;
      if (share === 0) continue;
      noise += share * (NOISE_BITS[condition] ?? 0);
      const odds = condition * VERDICTS;
      for (let verdict = 0; verdict < VERDICTS; verdict++) {
        outcome[verdict] = (outcome[verdict] ?? 0) + share * (OUTCOME_ODDS[odds + verdict] ?? 0);
      }
    }
    let bits = 0;
    for (const p of outcome) if (p > 0) bits -= p * Math.log2(p);
    gains[columns[at] ?? 0] = Math.max(0, bits - noise);
  }
  return gains;
}
