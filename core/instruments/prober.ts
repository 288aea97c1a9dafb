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
      if (!session.isOpen || !(thrown instanceof WakelineError)) throw thrown;
      if (session.hasErrorQueue === true) await session.drainErrors();
      return null;
    }
  };
}

/**
 * Learns who answers and whether there is an error queue. Returns how long, in milliseconds, an
 * answer to a probe may take on this instrument.
 */
export async function beginProbing(session: Session): Promise<number> {
  const startMs = session.clock.nowMs();
  if (session.identity === '') await session.identify();
  const tookMs = session.clock.nowMs() - startMs;
  const probeMs = Math.min(1500, Math.max(300, tookMs * 2));
  if (session.hasErrorQueue === null) {
    const probe = prober(session);
    session.hasErrorQueue = (await probe(':SYST:ERR?', errorReply, probeMs)) !== null;
    if (session.hasErrorQueue) await session.drainErrors();
  }
  return probeMs;
}
