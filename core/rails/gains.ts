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
 * Mutual information in bits between the verdict of each measurement and which cause holds: entropy
 * of the verdict less the mean entropy that chance, and the ways in which a cause may show, leave in
 * it. `weights` need not sum to 1; `rows` holds each explanation's conditions, `width` measurements
 * long, explanations of one cause next to each other. Only `columns` are computed; the rest of the
 * result is 0. `base` is any row that most rows differ little from: only what differs is added up.
 */
export function gainsBits(
  rows: readonly Uint8Array[],
  causes: ArrayLike<number>,
  weights: ArrayLike<number>,
  width: number,
  columns: ArrayLike<number>,
  base: Uint8Array = rows[0] ?? new Uint8Array(width),
): Float64Array {
  const gains = new Float64Array(width);
  const shares = new Float64Array(columns.length * KINDS);
  let total = 0;
  for (let index = 0; index < rows.length; index++) total += weights[index] ?? 0;
  if (total <= 0) return gains;
  const place = new Int32Array(width).fill(-1);
  for (let at = 0; at < columns.length; at++) {
    const column = columns[at] ?? 0;
    place[column] = at;
    shares[at * KINDS + (base[column] ?? 0)] = total;
  }
  // This is the hot loop.
  for (let index = 0; index < rows.length; index++) {
    const weight = weights[index] ?? 0;
    const row = rows[index];
    if (weight === 0 || row === undefined) continue;
    for (const column of changedIn(row, base)) {
      const at = place[column] ?? -1;
      if (at < 0) continue;
      const from = at * KINDS + (base[column] ?? 0);
      const to = at * KINDS + (row[column] ?? 0);
      shares[from] = (shares[from] ?? 0) - weight;
      shares[to] = (shares[to] ?? 0) + weight;
    }
  }
  const outcome = new Float64Array(VERDICTS);
  for (let at = 0; at < columns.length; at++) {
    outcome.fill(0);
    let noise = 0;
    for (let condition = 0; condition < KINDS; condition++) {
      const share = (shares[at * KINDS + condition] ?? 0) / total;
      // Taken away piece by piece, nothing is left over but rounding.
      if (share <= ROUNDING) continue;
      noise += share * (NOISE_BITS[condition] ?? 0);
      const odds = condition * VERDICTS;
      for (let verdict = 0; verdict < VERDICTS; verdict++) {
        outcome[verdict] = (outcome[verdict] ?? 0) + share * (OUTCOME_ODDS[odds + verdict] ?? 0);
      }
    }
    let bits = 0;
    for (const p of outcome) if (p > 0) bits -= p * Math.log2(p);
    gains[columns[at] ?? 0] = bits - noise;
  }
  takeOffVariants(rows, causes, weights, total, place, base, gains);
  for (let at = 0; at < gains.length; at++) gains[at] = Math.max(0, gains[at] ?? 0);
  return gains;
}

const ROUNDING = 1e-12;
const changes = new WeakMap<Uint8Array, { base: Uint8Array; columns: Uint32Array }>();

/** Columns in which a row differs from the base; rows of a prepared board are asked again and again. */
function changedIn(row: Uint8Array, base: Uint8Array): Uint32Array {
  const known = changes.get(row);
  if (known?.base === base) return known.columns;
  const found: number[] = [];
  for (let column = 0; column < row.length; column++) {
    if (row[column] !== base[column]) found.push(column);
  }
  const columns = Uint32Array.from(found);
  changes.set(row, { base, columns });
  return columns;
}

/** Telling two ways of showing apart is worth nothing when both are the same cause. */
function takeOffVariants(
  rows: readonly Uint8Array[],
  causes: ArrayLike<number>,
  weights: ArrayLike<number>,
  total: number,
  place: Int32Array,
  base: Uint8Array,
  gains: Float64Array,
): void {
  for (let from = 0; from < rows.length; ) {
    const first = rows[from];
    let weight = weights[from] ?? 0;
    let to = from + 1;
    // Variants are folded in one after the other: the entropy of a mixture of mixtures adds up so
    // for two, and near enough for the rare pair that has more.
    for (; to < rows.length && causes[to] === causes[from]; to++) {
      const row = rows[to];
      const share = weights[to] ?? 0;
      const both = weight + share;
      if (row === undefined || first === undefined || both <= 0) continue;
      const step = Math.round((STEPS * weight) / both);
      const scale = both / total;
      const takeOff = (column: number) => {
        const a = first[column] ?? 0;
        const b = row[column] ?? 0;
        if (a === b || (place[column] ?? -1) < 0) return;
        const spread = SPREAD_BITS[(a * KINDS + b) * (STEPS + 1) + step] ?? 0;
        gains[column] = (gains[column] ?? 0) - scale * spread;
      };
      for (const column of changedIn(first, base)) takeOff(column);
      for (const column of changedIn(row, base)) {
        if (first[column] === base[column]) takeOff(column);
      }
      weight = both;
    }
    from = to;
  }
}

/** Shares of a mixture that are told apart; finer changes no order of measurements. */
const STEPS = 32;

/**
 * Entropy of the verdict of two conditions mixed, beyond the mean of each (Jensen and Shannon's
 * divergence, Lin 1991, from memory), for every pair of conditions and share of the first.
 */
const SPREAD_BITS = spreadTable();

function spreadTable(): Float64Array {
  const table = new Float64Array(KINDS * KINDS * (STEPS + 1));
  for (let a = 0; a < KINDS; a++) {
    for (let b = 0; b < KINDS; b++) {
      for (let step = 0; step <= STEPS; step++) {
        const share = step / STEPS;
        let bits = -share * (NOISE_BITS[a] ?? 0) - (1 - share) * (NOISE_BITS[b] ?? 0);
        for (let verdict = 0; verdict < VERDICTS; verdict++) {
          const p =
            share * (OUTCOME_ODDS[a * VERDICTS + verdict] ?? 0) +
            (1 - share) * (OUTCOME_ODDS[b * VERDICTS + verdict] ?? 0);
          if (p > 0) bits -= p * Math.log2(p);
        }
        table[(a * KINDS + b) * (STEPS + 1) + step] = Math.max(0, bits);
      }
    }
  }
  return table;
}
