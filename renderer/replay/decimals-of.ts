const MOST_DECIMALS = 6;
const ENOUGH = 2000;

/** Digits after the point that an instrument gave, from values that are kept exactly. */
export function decimalsOf(values: Float64Array): number {
  const step = Math.max(1, Math.floor(values.length / ENOUGH));
  let decimals = 0;
  for (let i = 0; i < values.length; i += step) {
    const value = values[i]!;
    if (!Number.isFinite(value)) continue;
    while (decimals < MOST_DECIMALS && !isWhole(value * 10 ** decimals)) decimals += 1;
  }
  return decimals;
}

function isWhole(value: number): boolean {
  return Math.abs(value - Math.round(value)) < 1e-9 * Math.max(1, Math.abs(value));
}
