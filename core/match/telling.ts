/** Differences smaller than these are not worth a word. Common practice, no source. */
export const SMALL_S = 0.2;
export const SMALL_LEVEL = { A: 0.01, W: 0.1 } as const;
const SMALL_SHARE = 0.05;

/** Whether a difference is worth a word beside the value that it is a difference of. */
export function isTelling(by: number, of: number, small: number): boolean {
  return Math.abs(by) >= Math.max(small, SMALL_SHARE * Math.abs(of)) - 1e-9;
}
