import type { Run } from '../../core/job/job.ts';
import type { StageReport, TrackerSettings } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { Db } from './ledger-context.ts';
import type { LiveTrack } from './live-track.ts';
import { growReport, insertReport } from './report-store.ts';

/** Longest that a report which only grew at its end waits for a commit. */
const REPORT_EVERY_MS = 5_000;

interface Said {
  readonly report: StageReport;
  readonly settings: TrackerSettings;
}

/** A run that goes on: its tracks and the tracker's newest words on it. */
export class LiveRun {
  readonly id: string;
  readonly kind: Run['kind'];
  readonly startedAt: number;
  readonly tracks = new Map<string, LiveTrack>();
  jobId: string | null;
  /** Samples before this tick were trimmed. */
  trimmedTick = 0;
  #newest: Said | null = null;
  #stored: (Said & { readonly id: string; readonly atMs: number }) | null = null;

  constructor(id: string, start: Pick<Run, 'jobId' | 'kind' | 'startedAt'>) {
    this.id = id;
    this.jobId = start.jobId;
    this.kind = start.kind;
    this.startedAt = start.startedAt;
  }

  get supply(): LiveTrack | undefined {
    return this.tracks.get('supply');
  }

  get report(): StageReport | null {
    return this.#newest?.report ?? null;
  }

  get samples(): number {
    return this.supply?.samples ?? 0;
  }

  /** Seconds from the run's anchor to its newest sample. */
  get durationS(): number {
    return Math.max(0, this.supply?.lastTick ?? 0) / TICKS_PER_SECOND;
  }

  say(report: StageReport, settings: TrackerSettings): void {
    this.#newest = { report, settings };
  }

  /** Whether the newest report says something that should not wait. */
  isReportDue(nowMs: number): boolean {
    const now = this.#newest;
    const before = this.#stored;
    if (now === null || now.report === before?.report) return false;
    if (before === null) return true;
    return (
      now.report.stages.length !== before.report.stages.length ||
      now.report.marks.length !== before.report.marks.length ||
      nowMs - before.atMs >= REPORT_EVERY_MS
    );
  }

  /**
   * Writes the newest report. A run that goes on has one classification that grows; another
   * tracker version or other settings begin a new one beside it.
   */
  async writeReport(
    db: Db,
    o: { newId: () => string; nowMs: number; madeAt: number },
  ): Promise<{ stored: () => void }> {
    const now = this.#newest;
    const before = this.#stored;
    if (now === null || now.report === before?.report) return { stored: () => {} };
    const grows =
      before !== null &&
      before.report.trackerVersion === now.report.trackerVersion &&
      JSON.stringify(before.settings) === JSON.stringify(now.settings);
    const id = grows ? before.id : o.newId();
    if (grows) await growReport(db, id, before.report, now.report);
    else await insertReport(db, { id, runId: this.id, madeAt: o.madeAt, ...now });
    return {
      stored: () => {
        this.#stored = { ...now, id, atMs: o.nowMs };
      },
    };
  }
}
