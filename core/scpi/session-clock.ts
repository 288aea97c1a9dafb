/**
 * One monotonic clock for everything that is timed on the bench: milliseconds from an arbitrary
 * zero that never go backwards, and one-shot timers. Injected, so that core needs no host.
 */
export interface Clock {
  nowMs(): number;
  /** Calls `fn` once after `ms`. Returns the way to call it off. */
  setTimer(fn: () => void, ms: number): () => void;
}
