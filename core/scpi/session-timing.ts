import { DRIBBLE_TIMES } from './session-wire.ts';

/** What kind of answer is waited for: decides how long. */
export type CommandClass = 'identity' | 'status' | 'measurement';

/**
 * How long an answer of each class may take, in milliseconds, before the stream counts as out of
 * step. Meters take 100 to 400 ms a reading and seconds on high ohms; status comes at once.
 */
export interface SessionTiming {
  readonly timeoutMs: Readonly<Record<CommandClass, number>>;
  /** Nothing heard for this long = quiet. Longer than the gaps inside a dribbling reply. */
  readonly quietMs: number;
  /** At most this long waiting for quiet: an instrument that never stops talking is not waited for. */
  readonly quietCapMs: number;
  /** How often a query is asked again before it fails. Sets are never repeated. */
  readonly retries: number;
}

export const USUAL_TIMING: SessionTiming = {
  timeoutMs: { identity: 1500, status: 1000, measurement: 2500 },
  quietMs: 150,
  quietCapMs: 1500,
  retries: 1,
};

/** How often the step is looked for before an instrument counts as not answering. */
export const RESYNC_TRIES = 2;
/** More entries than any error queue seen holds: an instrument that never says 0 is not drained for ever. */
export const LONGEST_ERROR_QUEUE = 32;

/** Longest that one query can take with these times, whatever the instrument sends. */
export function longestQueryMs(timing: SessionTiming, timeoutMs: number, pauseMs = 0): number {
  const { identity } = timing.timeoutMs;
  const resyncMs = timing.quietCapMs + identity + pauseMs + DRIBBLE_TIMES * identity;
  const tryMs = RESYNC_TRIES * resyncMs + pauseMs + DRIBBLE_TIMES * timeoutMs;
  return (timing.retries + 1) * tryMs;
}
