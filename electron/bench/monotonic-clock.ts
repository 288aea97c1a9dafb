import { performance } from 'node:perf_hooks';
import type { Clock } from '../../core/scpi/session-clock.ts';

/** The process's monotonic clock: every instrument, guard and recorder is timed by this one. */
export const monotonicClock: Clock = {
  nowMs: () => performance.now(),
  setTimer(fn, ms) {
    const timer = setTimeout(fn, ms);
    return () => clearTimeout(timer);
  },
};
