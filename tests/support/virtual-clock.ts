import type { Clock } from '../../core/scpi/session-clock.ts';

/** A clock that moves only when nothing else is left to do: minutes of waiting cost microseconds. */
export interface VirtualClock extends Clock {
  /** Lets everything run until `work` is settled. Throws when it never will be. */
  settle<T>(work: Promise<T>): Promise<T>;
  /** Lets `ms` pass. */
  pass(ms: number): Promise<void>;
}

interface Timer {
  readonly atMs: number;
  readonly order: number;
  readonly fn: () => void;
}

/** All promises that can move have moved once the host's own queue comes round. */
const allMoved = () => new Promise<void>((resolve) => setImmediate(resolve));

export function virtualClock(): VirtualClock {
  let nowMs = 0;
  let order = 0;
  const timers = new Set<Timer>();

  function next(): Timer | null {
    let first: Timer | null = null;
    for (const timer of timers) {
      const isEarlier =
        first === null ||
        timer.atMs < first.atMs ||
        (timer.atMs === first.atMs && timer.order < first.order);
      if (isEarlier) first = timer;
    }
    return first;
  }

  function fire(timer: Timer): void {
    timers.delete(timer);
    nowMs = Math.max(nowMs, timer.atMs);
    timer.fn();
  }

  return {
    nowMs: () => nowMs,
    setTimer(fn, ms) {
      const timer = { atMs: nowMs + Math.max(0, ms), order: order++, fn };
      timers.add(timer);
      return () => {
        timers.delete(timer);
      };
    },
    async settle(work) {
      let isSettled = false;
      work.then(
        () => {
          isSettled = true;
        },
        () => {
          isSettled = true;
        },
      );
      for (;;) {
        await allMoved();
        if (isSettled) return work;
        const timer = next();
        if (timer === null) throw new Error('nothing is left to happen, and it is still pending');
        fire(timer);
      }
    },
    async pass(ms) {
      const endMs = nowMs + ms;
      for (;;) {
        await allMoved();
        const timer = next();
        if (timer === null || timer.atMs > endMs) break;
        fire(timer);
      }
      nowMs = endMs;
    },
  };
}
