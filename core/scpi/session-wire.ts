import type { ByteLink } from './byte-link.ts';
import { CARRIAGE_RETURN, LINE_FEED, lineFramer } from './response-lines.ts';
import { messageBytes } from './response-text.ts';
import type { Clock } from './session-clock.ts';
import { withoutPrompt } from './session-noise.ts';

/** How one exchange on the wire ended. */
export type WireOutcome<T> =
  | { readonly kind: 'answered'; readonly value: T; readonly line: string; readonly gotMs: number }
  /** Nothing fitted in time; `odd` is the last line that did not fit, `partial` an unended one. */
  | {
      readonly kind: 'silent';
      readonly odd: string | null;
      readonly partial: string;
      readonly isAtReturn: boolean;
    }
  | { readonly kind: 'closed' };

/** What a waiting request makes of a line. `hasten` = not the reply, which will not be long now. */
export type LineVerdict<T> = { readonly value: T } | 'hasten' | 'ignore';
export type Judge<T> = (line: string) => LineVerdict<T>;

export type TrafficListener = (direction: 'out' | 'in', bytes: Uint8Array, atMs: number) => void;

/** What ends our messages; empty = the quiet after them. */
export type MessageEnd = '\n' | '\r' | '\r\n' | '';

/** How an instrument ends its replies: LF (with or without CR), CR alone, or not at all. */
export type ReplyEnd = 'lf' | 'cr' | 'quiet';

export interface WireOptions {
  /** Whether a line that nobody waits for puts the replies in doubt. */
  readonly isStray: (line: string) => boolean;
  readonly onTraffic?: TrafficListener | undefined;
}

/** The one place that touches a link: writes messages, times them, hands lines to who waits. */
export interface Wire {
  readonly isOpen: boolean;
  /** When the newest message was written. */
  readonly sentMs: number;
  /** About the slowest answer of late, from message to whole reply; 0 = none yet. */
  readonly slowestMs: number;
  /** The newest messages, as an instrument that echoes sends them back. */
  readonly sent: readonly string[];
  /** True when something came that nobody asked for: the next reply may not be ours. */
  readonly hasStray: boolean;
  /** Pause between the end of a reply or message and the next message, in milliseconds. */
  pauseMs: number;
  replyEnd: ReplyEnd;
  /** What ends our messages. */
  messageEnd: MessageEnd;
  /** Writes a message now. Throws `port-lost` when the link is closed. */
  transmit(message: string): void;
  /** Resolves once the pause since the last traffic has passed. Null = no need to wait. */
  paused(): Promise<void> | null;
  /** Writes a message as soon as the pause allows, before anything else that waits for it. */
  transmitUrgent(message: string): Promise<void>;
  /** Writes a message now and waits for a line that `judge` takes. One at a time. */
  exchange<T>(message: string, judge: Judge<T>, timeoutMs: number): Promise<WireOutcome<T>>;
  /**
   * Throws away what comes until nothing has come for `quietMs`, counted from `sinceMs` (default:
   * now) or from the last byte, at most `capMs` long.
   */
  untilQuiet(quietMs: number, capMs: number, sinceMs?: number): Promise<void>;
  onClosed(listener: (pulled: boolean) => void): void;
  close(): Promise<void>;
}

/** A reply that dribbles in pieces may take this many times its time-out in all. */
export const DRIBBLE_TIMES = 3;
/** After a line that does not fit, the right one may take this many times the slowest seen. */
const HASTENED_TIMES = 3;
const HASTENED_LEAST_MS = 200;
/** Unended replies count as whole after this long without another byte: 48 characters at 9600 baud. */
const UNENDED_QUIET_MS = 50;

interface Waiting {
  judge: Judge<unknown>;
  resolve(outcome: WireOutcome<unknown>): void;
  timeoutMs: number;
  dueMs: number;
  capMs: number;
  odd: string | null;
}

export function openWire(link: ByteLink, clock: Clock, options: WireOptions): Wire {
  const cache = new Map<string, Uint8Array>();
  const closedListeners: ((pulled: boolean) => void)[] = [];
  let waiting: Waiting | null = null;
  let stopTimer: (() => void) | null = null;
  let timerDueMs = 0;
  const sent = ['', '', '', ''];
  let sentCount = 0;
  let sentMs = Number.NEGATIVE_INFINITY;
  let heardMs = Number.NEGATIVE_INFINITY;
  let slowestMs = 0;
  let hasStray = false;
  let urgentWaiting = 0;
  let replyEnd: ReplyEnd = 'lf';

  function settle(outcome: WireOutcome<unknown>): void {
    const done = waiting;
    waiting = null;
    done?.resolve(outcome);
  }

  function answered(value: unknown, line: string): void {
    slowestMs = Math.max(slowestMs * 0.99, heardMs - sentMs);
    settle({ kind: 'answered', value, line, gotMs: heardMs });
  }

  const framer = lineFramer((line) => {
    if (waiting === null) {
      hasStray ||= options.isStray(line);
      return;
    }
    const verdict = waiting.judge(line);
    if (verdict === 'ignore') return;
    if (verdict === 'hasten') {
      const graceMs = Math.max(HASTENED_LEAST_MS, HASTENED_TIMES * slowestMs);
      waiting.odd = line;
      waiting.dueMs = Math.min(waiting.dueMs, heardMs + graceMs);
      arm(waiting.dueMs);
      return;
    }
    answered(verdict.value, line);
  });

  /** One lazy timer for all exchanges: an answer in time costs no timer call at all. */
  function arm(dueMs: number): void {
    if (stopTimer !== null && timerDueMs <= dueMs) return;
    stopTimer?.();
    timerDueMs = dueMs;
    stopTimer = clock.setTimer(onTimer, Math.max(0, dueMs - clock.nowMs()));
  }

  function onTimer(): void {
    stopTimer = null;
    if (waiting === null) return;
    if (clock.nowMs() < waiting.dueMs) {
      arm(waiting.dueMs);
      return;
    }
    const { partial, isAtReturn } = framer;
    if (replyEnd === 'quiet' && partial !== '') {
      const verdict = waiting.judge(partial);
      if (typeof verdict === 'object') {
        framer.clear();
        answered(verdict.value, partial);
        return;
      }
    }
    settle({ kind: 'silent', odd: waiting.odd, partial, isAtReturn });
  }

  const stopListening = link.onBytes((bytes) => {
    heardMs = clock.nowMs();
    options.onTraffic?.('in', bytes, heardMs);
    framer.push(bytes);
    if (waiting === null || framer.partial === '') return;
    // Bytes of an unended line: the rest is on its way, within reason.
    const moreMs = replyEnd === 'quiet' ? UNENDED_QUIET_MS : waiting.timeoutMs;
    const dueMs = Math.min(waiting.capMs, heardMs + moreMs);
    waiting.dueMs = replyEnd === 'quiet' ? dueMs : Math.max(waiting.dueMs, dueMs);
    arm(waiting.dueMs);
  });

  const stopWatching = link.onClosed((pulled) => {
    stopTimer?.();
    stopTimer = null;
    settle({ kind: 'closed' });
    for (const listener of closedListeners) listener(pulled);
  });

  const pauseLeftMs = () => Math.max(sentMs, heardMs) + wire.pauseMs - clock.nowMs();

  function afterPause(isUrgent: boolean): Promise<void> {
    return new Promise((resolve) => {
      // Looked at again each time: somebody else may have written meanwhile.
      const look = () => {
        const yieldMs = !isUrgent && urgentWaiting > 0 ? wire.pauseMs : 0;
        const leftMs = Math.max(pauseLeftMs(), yieldMs);
        if (leftMs > 0 && link.isOpen) clock.setTimer(look, leftMs);
        else resolve();
      };
      look();
    });
  }

  const wire: Wire = {
    sent,
    pauseMs: 0,
    messageEnd: '\n',
    get replyEnd() {
      return replyEnd;
    },
    set replyEnd(end) {
      replyEnd = end;
      framer.endByte = end === 'cr' ? CARRIAGE_RETURN : LINE_FEED;
    },
    get isOpen() {
      return link.isOpen;
    },
    get sentMs() {
      return sentMs;
    },
    get slowestMs() {
      return slowestMs;
    },
    get hasStray() {
      // A prompt without an end is all that some virtual ports ever leave behind.
      return hasStray || withoutPrompt(framer.partial) !== '';
    },
    transmit(message) {
      const key = message + wire.messageEnd;
      let bytes = cache.get(key);
      if (bytes === undefined) {
        bytes = messageBytes(key);
        if (cache.size >= 64) cache.clear();
        cache.set(key, bytes);
      }
      sent[sentCount % sent.length] = message;
      sentCount += 1;
      sentMs = clock.nowMs();
      link.write(bytes);
      options.onTraffic?.('out', bytes, sentMs);
    },
    paused() {
      return pauseLeftMs() <= 0 && urgentWaiting === 0 ? null : afterPause(false);
    },
    async transmitUrgent(message) {
      if (pauseLeftMs() > 0) {
        urgentWaiting += 1;
        await afterPause(true);
        urgentWaiting -= 1;
      }
      wire.transmit(message);
    },
    exchange(message, judge, timeoutMs) {
      if (!link.isOpen) return Promise.resolve({ kind: 'closed' as const });
      return new Promise((resolve) => {
        const nowMs = clock.nowMs();
        hasStray = false;
        framer.clear();
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
        try {
          wire.transmit(message);
        } catch {
          settle({ kind: 'closed' });
        }
      });
    },
    untilQuiet(quietMs, capMs, sinceMs) {
      return new Promise((resolve) => {
        const startMs = clock.nowMs();
        const look = () => {
          const quietFromMs = Math.max(heardMs, sinceMs ?? startMs);
          const dueMs = Math.min(quietFromMs + quietMs, startMs + capMs);
          const leftMs = dueMs - clock.nowMs();
          if (leftMs > 0 && link.isOpen) {
            clock.setTimer(look, leftMs);
            return;
          }
          framer.clear();
          hasStray = false;
          resolve();
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
