/**
 * Entropy in bits of weights that need not sum to 1; 0 for no weight at all.
 * Shannon 1948.
 */
export function entropyBits(weights: readonly number[] | Float64Array): number {
  let total = 0;
  for (const weight of weights) total += weight;
  if (total <= 0) return 0;
  let bits = 0;
  for (const weight of weights) {
    if (weight > 0) bits -= (weight / total) * Math.log2(weight / total);
  }
  return bits;
}

/**
 * Expected information in bits of a test, from the joint weights of its outcomes (rows) with what is
 * asked about (columns): the entropy before less the mean entropy after.
 */
export function informationGainBits(outcomes: readonly (readonly number[])[]): number {
  const columns = Math.max(0, ...outcomes.map((row) => row.length));
  const before = Array.from({ length: columns }, (_, column) =>
    outcomes.reduce((sum, row) => sum + (row[column] ?? 0), 0),
  );
  const total = before.reduce((sum, weight) => sum + weight, 0);
  if (total <= 0) return 0;
  const after = outcomes.reduce((sum, row) => {
    const weight = row.reduce((all, each) => all + each, 0);
    return sum + (weight / total) * entropyBits(row);
  }, 0);
  return entropyBits(before) - after;
}
