import { type Trouble, troubleOf } from '../../core/errors.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';

/** When a reading's request left, when its answer was complete, and the middle of both. */
export interface ReadingTimes {
  readonly sentMs: number;
  readonly gotMs: number;
  /** The time that the reading is stamped with. */
  readonly midMs: number;
}

export interface Poller {
  /** Ends polling; resolves once no read is under way. */
  stop(): Promise<void>;
  /** Readings a second over the last seconds. */
  readonly rateHz: number;
  /** Polls whose time passed while an earlier one was still under way, or that failed. */
  readonly missed: number;
}

export interface PollerOptions<R> {
  readonly read: () => Promise<R>;
  readonly clock: Clock;
  readonly intervalMs: number;
  /** A reading's own times where it carries them; else those around `read`. */
  readonly timesOf?: (reading: R) => { sentMs: number; gotMs: number };
  onReading(reading: R, at: ReadingTimes): void;
  onTrouble(trouble: Trouble): void;
}

/** How long the achieved rate looks back. */
const RATE_WINDOW_MS = 3000;

/**
 * Reads at a steady cadence on one clock. One read at a time: a slow instrument lowers the rate,
 * and polls that fell due meanwhile are counted as missed, never caught up.
 */
export function startPoller<R>(options: PollerOptions<R>): Poller {
  const { clock, intervalMs } = options;
  const recent: number[] = [];
  let isStopped = false;
  let missed = 0;
  let dueMs = clock.nowMs();
  let stopTimer: (() => void) | null = null;
  let underWay: Promise<void> | null = null;

  const tick = () => {
    stopTimer = null;
    underWay = once();
  };

  async function once(): Promise<void> {
    const startMs = clock.nowMs();
    try {
      const reading = await options.read();
      const times = options.timesOf?.(reading) ?? { sentMs: startMs, gotMs: clock.nowMs() };
      if (isStopped) return;
      recent.push(times.gotMs);
      while (recent[0]! < times.gotMs - RATE_WINDOW_MS) recent.shift();
      const { sentMs, gotMs } = times;
      options.onReading(reading, { sentMs, gotMs, midMs: (sentMs + gotMs) / 2 });
    } catch (thrown) {
      if (isStopped) return;
      missed += 1;
      options.onTrouble(troubleOf(thrown, 'poll'));
    }
    if (isStopped) return;
    const nowMs = clock.nowMs();
    dueMs += intervalMs;
    if (dueMs < nowMs) {
      const passed = Math.floor((nowMs - dueMs) / intervalMs);
      missed += passed;
      dueMs += passed * intervalMs;
    }
    stopTimer = clock.setTimer(tick, Math.max(0, dueMs - nowMs));
  }

  tick();
  return {
    async stop() {
      isStopped = true;
      stopTimer?.();
      await underWay;
    },
    get rateHz() {
      const spanMs = (recent.at(-1) ?? 0) - (recent[0] ?? 0);
      return spanMs > 0 ? ((recent.length - 1) * 1000) / spanMs : 0;
    },
    get missed() {
      return missed;
    },
  };
}
