import type { Run } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { useDeskState } from '../state/use-desk.ts';

export interface SheetRun {
  readonly source: TraceSource | null;
  readonly report: StageReport | null;
  readonly run: Run | null;
  readonly isFinished: boolean;
}

/** The run that lies on the sheet: the live one, or the one that has just ended until the next. */
export function useSheetRun(): SheetRun {
  const finished = useDeskState((state) => state.finished);
  const trace = useDeskState((state) => state.trace);
  const live = useDeskState((state) => state.live);
  const run = useDeskState((state) => state.bench?.run ?? null);
  if (finished !== null && finished.trace !== null) {
    return {
      source: finished.trace,
      report: finished.report,
      run: finished.run,
      isFinished: true,
    };
  }
  const report = live !== null && live.runId === trace?.runId ? live.report : null;
  return { source: trace, report, run, isFinished: false };
}
