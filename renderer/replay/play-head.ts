import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';

export const SPEEDS = [1, 2, 4, 8, 16, 32] as const;
export type Speed = (typeof SPEEDS)[number];

/** Where the head is after `elapsedMs` of playing; stops at the run's end. */
export function advance(
  headTick: number,
  speed: Speed,
  elapsedMs: number,
  lastTick: number,
): number {
  return Math.min(lastTick, headTick + (elapsedMs / 1000) * speed * TICKS_PER_SECOND);
}

/** The next speed up or down, or the same at either end. */
export function otherSpeed(speed: Speed, by: 1 | -1): Speed {
  return SPEEDS[SPEEDS.indexOf(speed) + by] ?? speed;
}
