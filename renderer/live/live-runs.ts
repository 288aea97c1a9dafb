import type { LiveBatch } from '../../core/contract/bench-calls.ts';
import { createRunTrace, type RunTrace } from './run-trace.ts';

/** The run being recorded and the one before it: the feed moves on before a run is read. */
export interface LiveRuns {
  readonly current: () => RunTrace | null;
  readonly byId: (runId: string) => RunTrace | null;
  readonly append: (batch: LiveBatch) => void;
}

const KEPT = 3;

export function createLiveRuns(): LiveRuns {
  const runs: RunTrace[] = [];
  const byId = (runId: string) => runs.find((run) => run.runId === runId) ?? null;
  return {
    current: () => runs[0] ?? null,
    byId,
    append: (batch) => {
      let run = byId(batch.runId);
      if (run === null || (batch.fresh && run.samples() > 0)) {
        const old = run === null ? -1 : runs.indexOf(run);
        if (old >= 0) runs.splice(old, 1);
        run = createRunTrace(batch.runId);
        runs.unshift(run);
        runs.length = Math.min(runs.length, KEPT);
      }
      run.append(batch);
    },
  };
}
