import type { Run, RunEnd } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { createTracker, type Tracker } from '../../core/stages/tracker.ts';
import { type Sample, TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { RecorderCalls, RunStart } from '../ledger/recorder-calls.ts';
import { columnsOf } from './bench-columns.ts';

/** The run that is being recorded: its clock, its tracker, and the way to the ledger. */
export interface RecordedRun {
  readonly run: Run;
  readonly tracker: Tracker;
  /** Takes a time on the monotonic clock to the run's ticks. */
  tickAt(midMs: number): number;
  push(sample: Sample): void;
  /** Hands gathered samples to the ledger; keeps them for the next try when it refuses. */
  flush(): Promise<void>;
  saveReport(): Promise<void>;
  end(endedAt: number, end: RunEnd): Promise<{ run: Run; report: StageReport }>;
}

/** Begins a run in the ledger and its tracker. `anchorMs` is tick 0 on the monotonic clock. */
export async function beginRun(
  recorder: RecorderCalls,
  start: RunStart,
  anchorMs: number,
): Promise<RecordedRun> {
  const run = await recorder.startRun(start);
  const { settings } = start;
  const tracker = createTracker(settings);
  let waiting: Sample[] = [];

  async function flush(): Promise<void> {
    if (waiting.length === 0) return;
    const batch = waiting;
    waiting = [];
    try {
      await recorder.appendSupply({ runId: run.id, columns: columnsOf(batch) });
    } catch (thrown) {
      waiting = [...batch, ...waiting];
      throw thrown;
    }
  }

  return {
    run,
    tracker,
    tickAt: (midMs) => Math.max(0, Math.round(((midMs - anchorMs) * TICKS_PER_SECOND) / 1000)),
    push(sample) {
      waiting.push(sample);
      tracker.push(sample);
    },
    flush,
    async saveReport() {
      await recorder.saveReport({ runId: run.id, report: tracker.report(), settings });
    },
    async end(endedAt, end) {
      await flush();
      const report = tracker.finish();
      const ended = await recorder.endRun({ runId: run.id, endedAt, end, report, settings });
      return { run: ended, report };
    },
  };
}
