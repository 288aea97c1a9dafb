import { WakelineError } from '../../core/errors.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { writeChunks } from './chunk-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import type { LiveRun } from './live-run.ts';
import { LiveTrack } from './live-track.ts';
import type { TrackRow } from './tables.ts';
import { insertTrack } from './track-store.ts';

/** Longest that a sample waits in memory; the promise is 0.5 s, the rest is for the disk. */
export const FLUSH_MS = 350;
/** The same when the last commit failed: a full disk is not asked again and again. */
const RETRY_MS = 2_000;

/** The runs that go on, and the commits that bring them to disk. */
export class LiveRuns {
  readonly #context: LedgerContext;
  readonly #runs = new Map<string, LiveRun>();
  #timer: ReturnType<typeof setTimeout> | null = null;
  #flushing: Promise<void> | null = null;
  #hasFailed = false;

  constructor(context: LedgerContext) {
    this.#context = context;
  }

  begin(run: LiveRun): void {
    this.#runs.set(run.id, run);
  }

  forget(runId: string): void {
    this.#runs.delete(runId);
  }

  find(runId: string): LiveRun | undefined {
    return this.#runs.get(runId);
  }

  all(): Iterable<LiveRun> {
    return this.#runs.values();
  }

  /** The run, or `not-found` when it has ended or never began. */
  get(runId: string): LiveRun {
    const run = this.#runs.get(runId);
    if (run !== undefined) return run;
    throw new WakelineError({
      code: 'not-found',
      what: 'No run with this id is being recorded',
      where: `run ${runId}`,
      todo: 'Start a run first. What was recorded before is kept.',
    });
  }

  /**
   * Takes samples for the next commit. After a failed commit it tries that one again first and
   * throws what the disk answers: nothing of `columns` was taken then, and what was taken before
   * still waits to be written.
   */
  async append(
    runId: string,
    what: Pick<TrackRow, 'role' | 'quantity'>,
    columns: TraceColumns,
  ): Promise<void> {
    if (this.#hasFailed) await this.flush();
    const run = this.get(runId);
    const key = what.quantity === null ? what.role : `${what.role} ${what.quantity}`;
    let track = run.tracks.get(key);
    if (track === undefined) {
      track = new LiveTrack({ id: this.#context.newId(), run_id: runId, ...what });
      run.tracks.set(key, track);
    }
    track.append(columns, performance.now());
    this.wake();
  }

  /** Sees to it that a commit comes soon. */
  wake(afterMs = FLUSH_MS): void {
    if (this.#timer !== null) return;
    this.#timer = setTimeout(() => {
      this.#timer = null;
      // Whoever appends next is told why.
      this.flush().catch(() => this.wake(RETRY_MS));
    }, afterMs);
  }

  /** Commits everything that waits. Throws what the disk answers; nothing is dropped then. */
  async flush(): Promise<void> {
    while (this.#flushing !== null) await this.#flushing.catch(() => {});
    this.#flushing = this.#commit();
    try {
      await this.#flushing;
      this.#hasFailed = false;
    } catch (thrown) {
      this.#hasFailed = true;
      throw thrown;
    } finally {
      this.#flushing = null;
    }
  }

  async #commit(): Promise<void> {
    const nowMs = performance.now();
    const clock = { newId: this.#context.newId, nowMs, madeAt: this.#context.now() };
    const dirty = [...this.#runs.values()].filter(
      (run) => run.isReportDue(nowMs) || [...run.tracks.values()].some((t) => t.isDirty),
    );
    if (dirty.length === 0) return;
    const done: (() => void)[] = [];
    await this.#context.db.transaction().execute(async (db) => {
      for (const run of dirty) {
        for (const track of run.tracks.values()) {
          if (!track.isDirty) continue;
          if (!track.isStored) await insertTrack(db, track.row);
          const { rows, gone, saved } = track.unsaved(nowMs);
          await writeChunks(db, track.row.id, rows, gone);
          done.push(saved);
        }
        if (run.isReportDue(nowMs)) done.push((await run.writeReport(db, clock)).stored);
      }
    });
    for (const tell of done) tell();
  }

  stop(): void {
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = null;
  }
}
