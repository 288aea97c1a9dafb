import { type ScpiFault, scpiFault } from './scpi-fault.ts';

/**
 * The error/event queue of SCPI-1999 vol. 2, 21.8: first in first out; when it is full the
 * newest place becomes -350 and what comes after is lost.
 */
export interface ErrorQueue {
  readonly count: number;
  push(fault: ScpiFault): void;
  /** Takes the oldest; 0 "No error" when empty. */
  take(): ScpiFault;
  clear(): void;
}

/** Makes a queue of `places` places. */
export function createErrorQueue(places: number): ErrorQueue {
  const queue: ScpiFault[] = [];
  return {
    get count() {
      return queue.length;
    },
    push(fault) {
      if (queue.length < places) queue.push(fault);
      else queue[places - 1] = scpiFault(-350);
    },
    take: () => queue.shift() ?? scpiFault(0),
    clear() {
      queue.length = 0;
    },
  };
}
