import type { Feed, Run, RunEnd } from '../../core/job/job.ts';
import type { StageReport, TrackerSettings } from '../../core/stages/stage.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';

/** What the bench knows when a run begins. */
export interface RunStart {
  readonly jobId: string | null;
  readonly kind: Run['kind'];
  readonly startedAt: number;
  readonly utcOffsetMin: number;
  readonly feed: Feed;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly instrument: string;
  readonly pretend: boolean;
  readonly settings: TrackerSettings;
  /** The hunt that current is put in for; left out for every other run. */
  readonly huntId?: string | null;
}

/** Readings of the meter in a run, on its own time base. `NaN` value with `overload` 1 = over range. */
export interface MeterColumns {
  readonly ticks: Float64Array;
  readonly values: Float64Array;
  readonly overload: Uint8Array;
  readonly quantity: 'volts' | 'ohms' | 'diode' | 'continuity' | 'amps';
}

/**
 * What the bench (in main) asks of the ledger worker beside the window's own calls. Appended
 * samples are committed at most 0.5 s after they arrive. An append that rejects took nothing of
 * what it was handed: keep it and hand it in again.
 */
export interface RecorderCalls {
  startRun(start: RunStart): Promise<Run>;
  appendSupply(run: { runId: string; columns: TraceColumns }): Promise<null>;
  appendMeter(run: { runId: string; columns: MeterColumns }): Promise<null>;
  /** Adds the tracker's newest words on a run; earlier classifications stay. */
  saveReport(run: { runId: string; report: StageReport; settings: TrackerSettings }): Promise<null>;
  endRun(run: {
    runId: string;
    endedAt: number;
    end: RunEnd;
    report: StageReport;
    settings: TrackerSettings;
  }): Promise<Run>;
  /** Puts a guard trip at the end of a run that the last app left: it was learned of since. */
  markEndOfRun(run: { runId: string; text: string }): Promise<null>;
  /** Drops recorded stretches of runs without a job that ended before `olderThan`, UTC ms. */
  trimLoose(olderThan: { olderThan: number }): Promise<number>;
  /** Thresholds for a run of this job: its board's good runs, then its notes, then defaults. */
  settingsFor(run: {
    jobId: string | null;
    setV: number | null;
    limitA: number | null;
    feed: Feed;
    /** A run that is named again: it does not teach the level that it is held against. */
    notRunId?: string | null;
  }): Promise<TrackerSettings>;
  /** Steps that must be done or skipped before power, still open. Empty = power may come on. */
  openGates(job: { jobId: string }): Promise<readonly { id: string; title: string }[]>;
}
