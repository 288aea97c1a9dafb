/**
 * The least mean cost of telling every hypothesis apart, found by trying everything: outcome tables
 * only, none of the product's code.
 * @param outcomes `outcomes[measurement][hypothesis]`
 */
export function leastMeanCost(
  outcomes: readonly (readonly string[])[],
  weights: readonly number[],
  costs: readonly number[],
): number {
  const signatures = weights.map((_, h) => outcomes.map((row) => row[h]).join(','));
  const known = new Map<string, number>();
  const weigh = (set: readonly number[]) => set.reduce((sum, h) => sum + (weights[h] ?? 0), 0);
  const least = (set: readonly number[]): number => {
    if (set.every((h) => signatures[h] === signatures[set[0] ?? 0])) return 0;
    const key = set.join(',');
    const before = known.get(key);
    if (before !== undefined) return before;
    const all = weigh(set);
    let best = Number.POSITIVE_INFINITY;
    const tried = new Set<string>();
    for (const [at, row] of outcomes.entries()) {
      const parts = new Map<string, number[]>();
      for (const h of set) parts.set(row[h] ?? '', [...(parts.get(row[h] ?? '') ?? []), h]);
      if (parts.size < 2) continue;
      const split = `${costs[at]} ${[...parts.values()]
        .map((p) => p.join(','))
        .sort()
        .join('|')}`;
      if (tried.has(split)) continue;
      tried.add(split);
      let cost = costs[at] ?? 1;
      for (const part of parts.values()) {
        cost += (weigh(part) / all) * least(part);
        if (cost >= best) break;
      }
      best = Math.min(best, cost);
    }
    known.set(key, best);
    return best;
  };
  return least(weights.map((_, h) => h));
}
