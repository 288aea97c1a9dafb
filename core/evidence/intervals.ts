/** A share between 0 and 1 with its limits. */
export interface Interval {
  readonly low: number;
  readonly high: number;
}

/** Two-sided 95 % of a normal distribution. */
export const Z_95 = 1.959963984540054;

/**
 * Wilson's score interval for `hits` of `count`: 0 to 1 when nothing was observed, limits held inside
 * 0 and 1. Wilson 1927; Newcombe 1998, Statistics in Medicine 17:857, method 3.
 */
export function wilsonInterval(hits: number, count: number, z: number = Z_95): Interval {
  if (count === 0) return { low: 0, high: 1 };
  const share = hits / count;
  const denominator = 1 + z ** 2 / count;
  const middle = (share + z ** 2 / (2 * count)) / denominator;
  const half =
    (z * Math.sqrt((share * (1 - share)) / count + z ** 2 / (4 * count ** 2))) / denominator;
  // Rounding leaves 1e-17 where the limit is exactly 0 or 1.
  return {
    low: hits === 0 ? 0 : Math.max(0, middle - half),
    high: hits === count ? 1 : Math.min(1, middle + half),
  };
}

/** The rule of succession: chance that the next is a hit after `hits` of `count`. Laplace. */
export function ruleOfSuccession(hits: number, count: number): number {
  return (hits + 1) / (count + 2);
}

/** Mean, variance and central 95 % of Beta(a, b). */
export function betaSummary(a: number, b: number): Interval & { mean: number; variance: number } {
  const sum = a + b;
  return {
    mean: a / sum,
    variance: (a * b) / (sum ** 2 * (sum + 1)),
    low: betaQuantile(0.025, a, b),
    high: betaQuantile(0.975, a, b),
  };
}

/** Exact interval of Clopper and Pearson 1934, from the beta distribution. */
export function exactInterval(hits: number, count: number, level = 0.95): Interval {
  const tail = (1 - level) / 2;
  return {
    low: hits === 0 ? 0 : betaQuantile(tail, hits, count - hits + 1),
    high: hits === count ? 1 : betaQuantile(1 - tail, hits + 1, count - hits),
  };
}

/** Where Beta(a, b) has `p` of its weight below, by bisection to the last digit that matters. */
export function betaQuantile(p: number, a: number, b: number): number {
  let low = 0;
  let high = 1;
  for (let step = 0; step < 80; step++) {
    const middle = (low + high) / 2;
    if (betaBelow(middle, a, b) < p) low = middle;
    else high = middle;
  }
  return (low + high) / 2;
}

/** Weight of Beta(a, b) below x: the regularised incomplete beta function by its continued fraction. */
export function betaBelow(x: number, a: number, b: number): number {
  if (x <= 0) return 0;
  if (x >= 1) return 1;
  // The fraction converges fast on this side of the mean only (Lentz 1976, from memory).
  if (x > (a + 1) / (a + b + 2)) return 1 - betaBelow(1 - x, b, a);
  const front = Math.exp(a * Math.log(x) + b * Math.log(1 - x) - logBeta(a, b)) / a;
  const tiny = 1e-300;
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1), tiny);
  let fraction = d;
  for (let m = 1; m <= 300; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d, tiny);
    c = nonZero(1 + even / c, tiny);
    fraction *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d, tiny);
    c = nonZero(1 + odd / c, tiny);
    const change = d * c;
    fraction *= change;
    if (Math.abs(change - 1) < 1e-15) break;
  }
  return front * fraction;
}

function nonZero(value: number, tiny: number): number {
  return Math.abs(value) < tiny ? tiny : value;
}

function logBeta(a: number, b: number): number {
  return logGamma(a) + logGamma(b) - logGamma(a + b);
}

/** Lanczos' approximation with g = 7 and nine terms (from memory). */
function logGamma(x: number): number {
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - logGamma(1 - x);
  const shifted = x - 1;
  let sum = 0.9999999999998099;
  for (const [i, term] of LANCZOS.entries()) sum += term / (shifted + i + 1);
  const t = shifted + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (shifted + 0.5) * Math.log(t) - t + Math.log(sum);
}

const LANCZOS = [
  676.5203681218851, -1259.1392167224028, 771.3234287776531, -176.6150291621406, 12.507343278686905,
  -0.13857109526572012, 9.984369578019572e-6, 1.5056327351493116e-7,
];
