import type { ByteLink } from './byte-link.ts';
import { lineFramer } from './response-lines.ts';
import { messageBytes } from './response-text.ts';
import type { Clock } from './session-clock.ts';

/** How one exchange on the wire ended. */
export type WireOutcome<T> =
  | { readonly kind: 'answered'; readonly value: T; readonly line: string; readonly gotMs: number }
  /** Nothing fitted in time; `odd` is the last line that did not fit, `partial` an unended one. */
  | { readonly kind: 'silent'; readonly odd: string | null; readonly partial: string }
  | { readonly kind: 'closed' };

/** `undefined` = not the reply; `'hasten'` = not the reply, and the reply will not be long now. */
export type LineVerdict<T> = { readonly value: T } | 'hasten' | 'ignore';

/** The one place that touches a link: writes messages, times them, hands lines to who waits. */
export interface Wire {
  readonly isOpen: boolean;
  /** When the newest message was written. */
  readonly sentMs: number;
  /** True when lines came that nobody waited for since the last `exchange`. */
  readonly hasStray: boolean;
  /** The pause that must lie between the end of a reply or message and the next message. */
  pauseMs: number;
  /** Takes an unended line as a reply once it has been quiet for this long; null = LF only. */
  unendedAfterMs: number | null;
  /** Writes a message now. Throws `port-lost` when the link is closed. */
  transmit(message: string): void;
  /** Resolves once the pause since the last traffic has passed. Null = it has already. */
  paused(): Promise<void> | null;
  /** Writes a message now and waits for a line that `judge` takes. One at a time. */
  exchange<T>(
    message: string,
    judge: (line: string) => LineVerdict<T>,
    timeoutMs: number,
  ): Promise<WireOutcome<T>>;
  /** Throws away what comes until nothing has come for `quietMs`, at most `capMs` long. */
  untilQuiet(quietMs: number, capMs: number): Promise<void>;
  onClosed(listener: (pulled: boolean) => void): void;
  close(): Promise<void>;
}

export type TrafficListener = (direction: 'out' | 'in', bytes: Uint8Array, atMs: number) => void;

/** After a line that does not fit, how much longer the right one may take. */
const HASTENED_MS = 200;
/** A reply that dribbles in pieces may take this many times its time-out in all. */
const DRIBBLE_TIMES = 3;

interface Waiting {
  judge(line: string): LineVerdict<unknown>;
  resolve(outcome: WireOutcome<unknown>): void;
  timeoutMs: number;
  dueMs: number;
  capMs: number;
  odd: string | null;
}

export function openWire(link: ByteLink, clock: Clock, onTraffic?: TrafficListener): Wire {
  const cache = new Map<string, Uint8Array>();
  const closedListeners: ((pulled: boolean) => void)[] = [];
  let waiting: Waiting | null = null;
  let stopTimer: (() => void) | null = null;
  let timerDueMs = 0;
  let sentMs = Number.NEGATIVE_INFINITY;
  let heardMs = Number.NEGATIVE_INFINITY;
  let heardNowMs = 0;
  let hasStray = false;

  const settle = (outcome: WireOutcome<unknown>) => {
    const done = waiting;
    waiting = null;
    done?.resolve(outcome);
  };

  const framer = lineFramer((line) => {
    if (waiting === null) {
      hasStray = true;
      return;
    }
    const verdict = waiting.judge(line);
    if (verdict === 'ignore') return;
    if (verdict === 'hasten') {
      waiting.odd = line;
      waiting.dueMs = Math.min(waiting.dueMs, heardNowMs + HASTENED_MS);
      arm(waiting.dueMs);
      return;
    }
    settle({ kind: 'answered', value: verdict.value, line, gotMs: heardNowMs });
  });

  /** One lazy timer for all exchanges: an answer in time costs no timer call at all. */
  const arm = (dueMs: number) => {
    if (stopTimer !== null && timerDueMs <= dueMs) return;
    stopTimer?.();
    timerDueMs = dueMs;
    stopTimer = clock.setTimer(onTimer, Math.max(0, dueMs - clock.nowMs()));
  };

  const onTimer = () => {
    stopTimer = null;
    if (waiting === null) return;
    const nowMs = clock.nowMs();
    if (nowMs < waiting.dueMs) {
      arm(waiting.dueMs);
      return;
    }
    const partial = framer.partial;
    const unended = wire.unendedAfterMs;
    if (unended !== null && partial !== '') {
      const verdict = waiting.judge(partial);
      if (verdict !== 'ignore' && verdict !== 'hasten') {
        framer.clear();
        settle({ kind: 'answered', value: verdict.value, line: partial, gotMs: heardMs });
        return;
      }
    }
    settle({ kind: 'silent', odd: waiting.odd, partial });
  };

  const stopListening = link.onBytes((bytes) => {
    heardNowMs = clock.nowMs();
    heardMs = heardNowMs;
    onTraffic?.('in', bytes, heardNowMs);
    framer.push(bytes);
    if (waiting === null || framer.partial === '') return;
    const unended = wire.unendedAfterMs;
    if (unended !== null) {
      waiting.dueMs = Math.min(waiting.capMs, heardNowMs + unended);
      arm(waiting.dueMs);
    } else {
      waiting.dueMs = Math.max(
        waiting.dueMs,
        Math.min(waiting.capMs, heardNowMs + waiting.timeoutMs),
      );
    }
  });

  const stopWatching = link.onClosed((pulled) => {
    stopTimer?.();
    stopTimer = null;
    settle({ kind: 'closed' });
    for (const listener of closedListeners) listener(pulled);
  });

  const wire: Wire = {
    pauseMs: 0,
    unendedAfterMs: null,
    get isOpen() {
      return link.isOpen;
    },
    get sentMs() {
      return sentMs;
    },
    get hasStray() {
      return hasStray || framer.partial !== '';
    },
    transmit(message) {
      let bytes = cache.get(message);
      if (bytes === undefined) {
        bytes = messageBytes(message);
        if (cache.size >= 64) cache.clear();
        cache.set(message, bytes);
      }
      sentMs = clock.nowMs();
      onTraffic?.('out', bytes, sentMs);
      link.write(bytes);
    },
    paused() {
      const waitMs = Math.max(sentMs, heardMs) + wire.pauseMs - clock.nowMs();
      if (wire.pauseMs <= 0 || waitMs <= 0) return null;
      return new Promise((resolve) => {
        clock.setTimer(resolve, waitMs);
      });
    },
    exchange(message, judge, timeoutMs) {
      if (!link.isOpen) return Promise.resolve({ kind: 'closed' as const });
      return new Promise((resolve) => {
        const nowMs = clock.nowMs();
        hasStray = false;
        waiting = {
          judge,
          resolve: resolve as (outcome: WireOutcome<unknown>) => void,
          timeoutMs,
          dueMs: nowMs + timeoutMs,
          capMs: nowMs + timeoutMs * DRIBBLE_TIMES,
          odd: null,
        };
        arm(waiting.dueMs);
        // Listening before writing: a link in this process may answer inside the call.
        wire.transmit(message);
      });
    },
    untilQuiet(quietMs, capMs) {
      return new Promise((resolve) => {
        const startMs = clock.nowMs();
        const look = () => {
          const nowMs = clock.nowMs();
          const quietSinceMs = Math.max(heardMs, startMs);
          const leftMs = Math.min(quietSinceMs + quietMs, startMs + capMs) - nowMs;
          if (leftMs <= 0 || !link.isOpen) {
            framer.clear();
            hasStray = false;
            resolve();
          } else clock.setTimer(look, leftMs);
        };
        look();
      });
    },
    onClosed(listener) {
      closedListeners.push(listener);
    },
    async close() {
      stopTimer?.();
      stopTimer = null;
      stopListening();
      stopWatching();
      settle({ kind: 'closed' });
      await link.close();
    },
  };
  return wire;
}
