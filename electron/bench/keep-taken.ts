import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { ProbePoint, ProbeState, ProbeTaken } from '../../core/contract/probing-calls.ts';
import type { Run } from '../../core/job/job.ts';
import type { TakenReading } from '../../core/probing/probe-event.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';

/** Where a taken reading belongs. */
export interface KeepPlace {
  readonly along: ProbeState['along'];
  readonly jobId: string | null;
  readonly run: Run | null;
  readonly point: ProbePoint | null;
  /** The reading whose place it takes. */
  readonly replaces: ProbeTaken | null;
  readonly nowMs: number;
}

/**
 * Stores a taken reading on its point, or loose in order; a view stores its own. The reading that it
 * replaces is taken back once the new one is kept. Throws as `addReading`.
 */
export async function keepTaken(
  ledger: Pick<Handlers<typeof jobCalls>, 'addReading' | 'forgetReading'>,
  reading: TakenReading,
  { along, jobId, run, point, replaces, nowMs }: KeepPlace,
): Promise<ProbeTaken> {
  const { quantity, overload } = reading;
  const value = overload ? null : reading.value;
  const decimals = shownDecimals(quantity, reading.decimals, value);
  const title = replaces?.title ?? point?.title ?? '';
  const replaced = replaces !== null;
  if (along === 'view') {
    const nowhere = { readingId: null, itemId: null, title, place: '', takenAt: nowMs };
    return { ...nowhere, quantity, value, overload, decimals, replaced };
  }
  const itemId = replaces === null ? (point?.itemId ?? null) : replaces.itemId;
  const stored = await ledger.addReading({
    jobId,
    itemId,
    runId: run !== null && run.endedAt === null ? run.id : null,
    quantity,
    value,
    overload,
    decimals: overload ? null : decimals,
    place: replaces?.place ?? point?.place ?? '',
    expectedLow: null,
    expectedHigh: null,
    source: 'meter',
  });
  if (replaces?.readingId != null) await ledger.forgetReading({ readingId: replaces.readingId });
  const { id: readingId, place, takenAt } = stored;
  return {
    ...{ readingId, itemId, title, place, takenAt },
    ...{ quantity, value, overload, decimals, replaced },
  };
}
