/** Notices that main has stopped beating, counted in ticks of the watcher's own timer. */
export interface Silence {
  beat(): void;
  /** Whether main has been silent for too long. */
  readonly isTooLong: boolean;
  /** One tick of the watcher's timer. True once, when main has been silent for too long. */
  tick(): boolean;
}

export const TICK_MS = 50;
/**
 * Ticks without a beat that mean a hung main: 800 ms, with beats every 100 ms. A hang is then
 * noticed 0.7 to 0.8 s after it began, which leaves a slow line 0.2 s to be off within one second.
 */
export const SILENT_TICKS = 16;
/** How often main beats. */
export const BEAT_MS = 100;

/**
 * Counts ticks instead of reading a clock: where the whole computer slept, or the watcher itself
 * got no time, its ticks are as late as main's beats, and one late tick counts as one.
 */
export function silence(): Silence {
  let ticks = 0;
  return {
    beat() {
      ticks = 0;
    },
    get isTooLong() {
      return ticks >= SILENT_TICKS;
    },
    tick() {
      ticks += 1;
      return ticks === SILENT_TICKS;
    },
  };
}
