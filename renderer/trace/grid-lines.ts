/** Pixels around the plot: flags of marks above, axes left and right, times below. */
export const PLOT = { top: 26, right: 60, bottom: 28, left: 64 } as const;

/** Heights in pixels of the hairlines of an axis whose domain fills the whole plot. */
export function gridLines(
  ticks: readonly number[],
  [low, high]: readonly [low: number, high: number],
  height: number,
): number[] {
  const inside = height - PLOT.top - PLOT.bottom;
  return ticks.map((value) => PLOT.top + ((high - value) / (high - low)) * inside);
}
