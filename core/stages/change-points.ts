/**
 * Values already joined into runs: `weight` counts (or weighs) them, `mean` is their mean and
 * `squares` their weighted squared deviations from it. A plain series is one cell a value.
 */
export interface Cells {
  readonly weight: Float64Array;
  readonly mean: Float64Array;
  readonly squares: Float64Array;
}

/** Where a series is cut: the count of cells before the end of each segment, the last = all. */
export interface Partition {
  readonly ends: number[];
  /** Squared deviations from the segments' means, without the penalties. */
  readonly cost: number;
}

/** One cell a value, weight 1. */
export function cellsOf(values: ArrayLike<number>): Cells {
  const n = values.length;
  return {
    weight: new Float64Array(n).fill(1),
    mean: Float64Array.from(values),
    squares: new Float64Array(n),
  };
}

/** A stretch of possible levels on which one last cut is best: cost a m^2 + b m + c. */
interface Reach {
  from: number;
  to: number;
  a: number;
  b: number;
  c: number;
  cut: number;
}

/**
 * The exact least-squares partition of a series: minimises squared deviations from each segment's
 * mean plus `penalty` for every cut. Dynamic programming with functional pruning (Maidstone,
 * Hocking, Rigaill and Fearnhead 2017, "On optimal multiple changepoint algorithms for large
 * data"): a cut is dropped as soon as no level makes it best, so that the work stays near linear
 * on long flat runs as well, where pruning by inequality alone turns quadratic.
 */
export function penalisedPartition(cells: Cells, penalty: number): Partition {
  const n = cells.mean.length;
  if (n === 0) return { ends: [], cost: 0 };
  let lowest = Number.POSITIVE_INFINITY;
  let highest = Number.NEGATIVE_INFINITY;
  for (let i = 0; i < n; i++) {
    lowest = Math.min(lowest, cells.mean[i]!);
    highest = Math.max(highest, cells.mean[i]!);
  }
  // Levels are taken relative to the middle, so that a large offset costs no digits.
  const offset = (lowest + highest) / 2;
  const from = lowest - offset;
  const to = highest - offset;
  const lastCut = new Int32Array(n);
  let reaches: Reach[] = [{ from, to, a: 0, b: 0, c: 0, cut: 0 }];
  let best = 0;
  for (let i = 0; i < n; i++) {
    if (i > 0) reaches = offerCut(reaches, best + penalty, i);
    const w = cells.weight[i]!;
    const y = cells.mean[i]! - offset;
    best = Number.POSITIVE_INFINITY;
    for (const r of reaches) {
      r.a += w;
      r.b -= 2 * w * y;
      r.c += w * y * y + cells.squares[i]!;
      const level = Math.min(r.to, Math.max(r.from, -r.b / (2 * r.a)));
      const cost = (r.a * level + r.b) * level + r.c;
      if (cost < best) {
        best = cost;
        lastCut[i] = r.cut;
      }
    }
  }
  const ends: number[] = [];
  for (let end = n; end > 0; end = lastCut[end - 1]!) ends.push(end);
  ends.reverse();
  return { ends, cost: partitionCost(cells, ends) };
}

/** Keeps each reach only where it beats cutting here at `price`; the rest goes to the new cut. */
function offerCut(reaches: Reach[], price: number, cut: number): Reach[] {
  const kept: Reach[] = [];
  const fresh = (from: number, to: number) => {
    const last = kept[kept.length - 1];
    if (last !== undefined && last.cut === cut) last.to = to;
    else if (to > from) kept.push({ from, to, a: 0, b: 0, c: price, cut });
  };
  for (const r of reaches) {
    const roots = r.b * r.b - 4 * r.a * (r.c - price);
    if (roots <= 0 || r.a <= 0) {
      if (r.a <= 0 && r.c <= price) kept.push(r);
      else fresh(r.from, r.to);
      continue;
    }
    const half = Math.sqrt(roots) / (2 * r.a);
    const middle = -r.b / (2 * r.a);
    const low = Math.max(r.from, middle - half);
    const high = Math.min(r.to, middle + half);
    if (low >= high) {
      fresh(r.from, r.to);
      continue;
    }
    const { from, to } = r;
    if (low > from) fresh(from, low);
    r.from = low;
    r.to = high;
    kept.push(r);
    if (high < to) fresh(high, to);
  }
  return kept;
}

/** Squared deviations of the cells from the means of the segments that `ends` names. */
export function partitionCost(cells: Cells, ends: readonly number[]): number {
  let cost = 0;
  let start = 0;
  for (const end of ends) {
    let weight = 0;
    let mean = 0;
    let squares = 0;
    for (let i = start; i < end; i++) {
      const w = cells.weight[i]!;
      weight += w;
      const off = cells.mean[i]! - mean;
      mean += (off * w) / weight;
      squares += w * off * (cells.mean[i]! - mean) + cells.squares[i]!;
    }
    cost += squares;
    start = end;
  }
  return cost;
}

/** Penalty names that R's changepoint package uses; p extra parameters a segment, n values. */
export function penaltyFor(
  name: 'aic' | 'bic' | 'mbic' | 'hannan-quinn',
  n: number,
  p = 1,
): number {
  if (name === 'aic') return 2 * (p + 1);
  if (name === 'bic') return (p + 1) * Math.log(n);
  if (name === 'mbic') return (p + 2) * Math.log(n);
  return 2 * (p + 1) * Math.log(Math.log(n));
}
