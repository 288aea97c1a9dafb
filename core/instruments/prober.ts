import { WakelineError } from '../errors.ts';
import type { ErrorEntry } from '../scpi/response-error.ts';
import { errorReply, type ReplyShape } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';

/** Asks once; null when the instrument does not know the question. */
export type Probe = <T>(
  message: string | null,
  shape: ReplyShape<T>,
  timeoutMs: number,
) => Promise<T | null>;

/** With an error queue, silence of this many milliseconds is looked into. */
export const QUICK_MS = 250;

/** "No such command", and nothing else (SCPI-1999 vol. 2, 21.8.9: -100 to -199 are command errors). */
const isCommandError = ({ code }: ErrorEntry) => code <= -100 && code > -200;

/**
 * Asks questions that may not be known, and clears away the errors that asking caused. With an
 * error queue, silence is looked into after `quickMs`: a command error there ends the waiting, and
 * only an instrument that says nothing against the question is waited for to the end.
 */
export function prober(session: Session, quickMs = Number.POSITIVE_INFINITY): Probe {
  async function askOnce<T>(message: string, shape: ReplyShape<T>, timeoutMs: number) {
    try {
      return await session.query(message, shape, { timeoutMs, retries: 0 });
    } catch (thrown) {
      const isAnswering = thrown instanceof WakelineError && thrown.trouble.code !== 'port-lost';
      if (!isAnswering || !session.isOpen) throw thrown;
      return thrown.trouble.code;
    }
  }

  /** The errors that asking caused; null when it is too busy to say. */
  async function errorsAfter(): Promise<readonly ErrorEntry[] | null> {
    try {
      return await session.drainErrors();
    } catch (thrown) {
      if (!session.isOpen) throw thrown;
      return null;
    }
  }

  return async (message, shape, timeoutMs) => {
    if (message === null) return null;
    const hasQueue = session.hasErrorQueue === true;
    const firstMs = hasQueue ? Math.min(timeoutMs, quickMs) : timeoutMs;
    const first = await askOnce(message, shape, firstMs);
    if (typeof first === 'object') return first.value;
    if (!hasQueue) return null;
    const errors = await errorsAfter();
    const isSlow = first === 'no-answer' && !(errors ?? []).some(isCommandError);
    if (!isSlow || firstMs >= timeoutMs) return null;
    const again = await askOnce(message, shape, timeoutMs);
    if (typeof again === 'object') return again.value;
    await errorsAfter();
    return null;
  };
}

/** Answers come at least this much faster than a probe gives up. */
const PROBE_TIMES = 4;
const LEAST_PROBE_MS = 150;

/**
 * Learns who answers and whether there is an error queue. Returns how long, in milliseconds, an
 * answer to a probe may take on this instrument, by how long its identity took.
 */
export async function beginProbing(session: Session, knownQueue?: boolean): Promise<number> {
  if (session.identity === '') await session.identify();
  const { sentMs, gotMs } = await session.query('*IDN?', {
    due: 'its identity',
    decode: (text) => (text === session.identity ? text : undefined),
  });
  const probeMs = Math.min(1500, Math.max(LEAST_PROBE_MS, (gotMs - sentMs) * PROBE_TIMES));
  if (knownQueue !== undefined) session.hasErrorQueue = knownQueue;
  if (session.hasErrorQueue === null) {
    const entry = await prober(session)('SYST:ERR?', errorReply, probeMs);
    session.hasErrorQueue = entry !== null;
    if (entry !== null && entry.code !== 0) await session.drainErrors();
  }
  return probeMs;
}

/** How long something may take, in milliseconds, that took this long a moment ago. */
export function likelyMs(tookMs: number, mostMs: number): number {
  return Math.min(mostMs, 300 + 3 * tookMs);
}
