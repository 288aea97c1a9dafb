/** Away for less is not away: nobody needs telling of two minutes. */
export const AWAY_MS = 2 * 60_000;

/** Watches when the window was left and when somebody came back to it. */
export interface Away {
  left(nowMs: number): void;
  /** How long it was left when somebody comes back; null when that was too short to tell of. */
  back(nowMs: number): { readonly fromMs: number; readonly toMs: number } | null;
}

export function createAway(leastMs = AWAY_MS): Away {
  let leftMs: number | null = null;
  return {
    left(nowMs) {
      leftMs ??= nowMs;
    },
    back(nowMs) {
      const fromMs = leftMs;
      leftMs = null;
      return fromMs === null || nowMs - fromMs < leastMs ? null : { fromMs, toMs: nowMs };
    },
  };
}
