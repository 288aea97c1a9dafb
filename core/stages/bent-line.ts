import { medianOf, NORMAL_QUARTILE } from '../trace/statistics.ts';

/** Cost of a bend in units of squared deviation over variance. */
const CUT = 24;
/** Share of a line's residual that a level beside a line has to take away to be preferred. */
const HINGE = 0.75;

/** Noise of the block means in amps, from how much three neighbours bend, and from the count. */
export function blockNoise(y: readonly number[], countA: number): number {
  const bends: number[] = [];
  for (let i = 1; i + 1 < y.length; i++) bends.push(Math.abs(y[i - 1]! - 2 * y[i]! + y[i + 1]!));
  const bend = medianOf(bends) / NORMAL_QUARTILE / Math.sqrt(6);
  return Math.hypot(bend, countA / Math.sqrt(12));
}

/**
 * Exact partition of points into straight lines by least squares with a price for each bend (dynamic
 * programming; a hundred points or a few more), at least `least` points a line. A line that is
 * better told as a level followed or preceded by a slope is bent once more. Returns index ranges,
 * the end not included.
 */
export function straightLines(
  x: readonly number[],
  y: readonly number[],
  noise: number,
  least: number,
): [number, number][] {
  const n = x.length;
  const variance = noise * noise + (0.004 * meanSize(y)) ** 2 + 1e-10;
  const cost = lineCosts(x, y);
  const best = new Float64Array(n + 1).fill(Number.POSITIVE_INFINITY);
  const from = new Int32Array(n + 1);
  best[0] = -CUT;
  for (let end = least; end <= n; end++) {
    for (let start = 0; start + least <= end; start++) {
      const total = best[start]! + cost(start, end).line / variance + CUT;
      if (total < best[end]!) {
        best[end] = total;
        from[end] = start;
      }
    }
  }
  const cuts: [number, number][] = [];
  for (let end = n; end > 0; end = from[end]!) cuts.unshift([from[end]!, end]);
  return cuts.flatMap(([start, end]) => hinged(start, end, least, cost));
}

type Cost = ReturnType<typeof lineCosts>;

/** A line as level and slope where that leaves clearly less over. */
function hinged(start: number, end: number, least: number, cost: Cost): [number, number][] {
  let at = 0;
  let left = HINGE * cost(start, end).line;
  for (let h = start + least; h + least <= end; h++) {
    const before = cost(start, h).level + cost(h, end).line;
    const after = cost(start, h).line + cost(h, end).level;
    const now = Math.min(before, after);
    if (now < left) {
      left = now;
      at = h;
    }
  }
  return at === 0
    ? [[start, end]]
    : [
        [start, at],
        [at, end],
      ];
}

function meanSize(y: readonly number[]): number {
  return y.reduce((a, b) => a + Math.abs(b), 0) / y.length;
}

/** Squares left beside the level and beside the line of any stretch, from running sums. */
function lineCosts(x: readonly number[], y: readonly number[]) {
  const n = x.length;
  const my = y.reduce((a, b) => a + b, 0) / n;
  const mx = x.reduce((a, b) => a + b, 0) / n;
  const s = Array.from({ length: 5 }, () => new Float64Array(n + 1));
  for (let i = 0; i < n; i++) {
    const dx = x[i]! - mx;
    const dy = y[i]! - my;
    [dx, dy, dx * dx, dx * dy, dy * dy].forEach((v, k) => {
      s[k]![i + 1] = s[k]![i]! + v;
    });
  }
  return (start: number, end: number): { level: number; line: number } => {
    const m = end - start;
    const [sx, sy, sxx, sxy, syy] = s.map((column) => column[end]! - column[start]!) as [
      number,
      number,
      number,
      number,
      number,
    ];
    const vx = sxx - (sx * sx) / m;
    const vxy = sxy - (sx * sy) / m;
    const vy = syy - (sy * sy) / m;
    const line = vx > 0 ? vy - (vxy * vxy) / vx : vy;
    return { level: Math.max(0, vy), line: Math.max(0, line) };
  };
}
