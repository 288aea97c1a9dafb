import type { LiveBatch } from '../../core/contract/bench-calls.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { createRunTrace, type RunTrace } from './run-trace.ts';

/** The run being recorded and the ones before it: the feed moves on before a run is read. */
export interface LiveRuns {
  readonly current: () => RunTrace | null;
  readonly byId: (runId: string) => RunTrace | null;
  readonly append: (batch: LiveBatch) => void;
}

/** Hands over what was recorded of a run before `beforeTick`, in order, piece by piece. */
export type ReadEarlier = (
  runId: string,
  beforeTick: number,
  use: (piece: TraceColumns) => void,
) => Promise<void>;

const KEPT = 3;

/**
 * Keeps live runs. A run that this window meets in its middle (it was loaded anew while a board
 * was powered) gets its beginning from the ledger; what arrives meanwhile waits behind it.
 */
export function createLiveRuns(readEarlier: ReadEarlier): LiveRuns {
  const runs: RunTrace[] = [];
  const waiting = new Map<RunTrace, LiveBatch[]>();
  const byId = (runId: string) => runs.find((run) => run.runId === runId) ?? null;

  const open = (runId: string): RunTrace => {
    const run = createRunTrace(runId);
    runs.unshift(run);
    runs.length = Math.min(runs.length, KEPT);
    return run;
  };

  const fillThen = async (run: RunTrace, first: LiveBatch): Promise<void> => {
    waiting.set(run, [first]);
    await readEarlier(run.runId, first.ticks[0] ?? 0, run.append);
    for (const batch of waiting.get(run) ?? []) run.append(batch);
    waiting.delete(run);
  };

  return {
    current: () => runs[0] ?? null,
    byId,
    append: (batch) => {
      const known = byId(batch.runId);
      if (batch.fresh) {
        if (known !== null) runs.splice(runs.indexOf(known), 1);
        open(batch.runId).append(batch);
      } else if (known === null) void fillThen(open(batch.runId), batch);
      else {
        const queue = waiting.get(known);
        if (queue === undefined) known.append(batch);
        else queue.push(batch);
      }
    },
  };
}
