import { WakelineError } from '../errors.ts';
import { errorReply, type ReplyShape } from '../scpi/response-shape.ts';
import type { Session } from '../scpi/session.ts';

/** Asks once; null when the instrument does not know the question. */
export type Probe = <T>(
  message: string | null,
  shape: ReplyShape<T>,
  timeoutMs: number,
) => Promise<T | null>;

/** Asks questions that may not be known, and clears away the errors that asking caused. */
export function prober(session: Session): Probe {
  return async (message, shape, timeoutMs) => {
    if (message === null) return null;
    try {
      return (await session.query(message, shape, { timeoutMs, retries: 0 })).value;
    } catch (thrown) {
      const isAnswering = thrown instanceof WakelineError && thrown.trouble.code !== 'port-lost';
      if (!isAnswering || !session.isOpen) throw thrown;
      if (session.hasErrorQueue === true) await session.drainErrors();
      return null;
    }
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
