import { decodeErrorEntry } from './response-error.ts';

/** A question whose answer is known beforehand, asked to find the step again. */
export interface ResyncQuestion {
  readonly message: string;
  fits(reply: string): boolean;
}

/** Joined identities are asked 1 to this many times over. */
const JOINED = 4;

const repeated = (text: string, times: number) => Array(times).fill(text).join(';');

/**
 * The questions that resyncs take in turn on an instrument: the more there are, the older a late
 * answer must be to pass for another's. Where queries can be joined, the identity once to four
 * times; else the identity and, where it is answered, the error queue.
 */
export function resyncQuestions(
  identity: string,
  canJoin: boolean,
  hasErrorQueue: boolean,
): readonly ResyncQuestion[] {
  const joined = Array.from({ length: canJoin ? JOINED : 1 }, (_, i) => ({
    message: repeated('*IDN?', i + 1),
    fits: (reply: string) => reply === repeated(identity, i + 1),
  }));
  if (canJoin || !hasErrorQueue) return joined;
  const errors = {
    message: 'SYST:ERR?',
    fits: (reply: string) => decodeErrorEntry(reply) !== undefined,
  };
  return [...joined, errors];
}
