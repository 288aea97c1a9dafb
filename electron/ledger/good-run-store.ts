import { anchorS } from '../../core/bands/band-anchor.ts';
import type { GoodRun } from '../../core/bands/build-band.ts';
import { BAND_SPAN_S } from '../../core/bands/known-good-band.ts';
import type { Run } from '../../core/job/job.ts';
import { hasRun } from '../../core/job/run-lesson.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { Db } from './ledger-context.ts';
import { newestOutcome } from './outcome-store.ts';
import { newestSummaries, readReport } from './report-store.ts';
import type { RunReader } from './run-reader.ts';
import { runFromRow } from './run-store.ts';

/** Earlier runs that are looked at, newest first, and good ones that make a band. */
const MOST_LOOKED_AT = 60;
const MOST_GOOD = 20;
/** Samples of one good run: two minutes at up to 800 Hz. */
const MOST_SAMPLES = 100_000;

/** Volts that a run was fed at: as set, else as its held watts and amps say; null when not known. */
export function feedVOf(run: Run): number | null {
  const { setV, reach } = run;
  if (setV !== null) return setV;
  if (reach === null || reach.heldA === null || reach.heldW === null) return null;
  return reach.heldA > 0 ? reach.heldW / reach.heldA : null;
}

/**
 * Good runs of a board model, newest first, with the samples that a band is made of: those marked
 * as after repair in a job that was not closed as unrepaired, and those that reached running and
 * were not marked as before repair.
 */
export async function goodRunsOfModel(
  db: Db,
  reader: RunReader,
  o: { boardKey: string; notRunId: string | null },
): Promise<readonly GoodRun[]> {
  const rows = await db
    .selectFrom('runs')
    .innerJoin('jobs', 'jobs.id', 'runs.job_id')
    .selectAll('runs')
    .select(['jobs.id as of_job', 'jobs.state as job_state'])
    .where('jobs.board_key', '=', o.boardKey)
    .where('jobs.binned_at', 'is', null)
    .where('runs.kind', '=', 'powered')
    .where('runs.ended_at', 'is not', null)
    .where('runs.samples', '>', 0)
    .where('runs.id', '!=', o.notRunId ?? '')
    .orderBy('runs.started_at', 'desc')
    .limit(MOST_LOOKED_AT)
    .execute();
  const summaries = await newestSummaries(
    db,
    rows.map((row) => row.id),
  );
  const good: GoodRun[] = [];
  for (const row of rows) {
    const summary = summaries.get(row.id);
    if (summary === undefined || good.length === MOST_GOOD) continue;
    const run = runFromRow(row, summary);
    const isRunning = run.reach?.stage === 'running';
    if (run.role === 'before' || (run.role !== 'after' && !isRunning)) continue;
    if (!isRunning && (await isUnrepaired(db, row.of_job, row.job_state))) continue;
    const report = await readReport(db, summary);
    // A sample on its way somewhere else is no good run: what teaches a level teaches a band.
    if (run.role !== 'after' && !hasRun(report)) continue;
    const lastS = anchorS(report, 'wake-request') ?? anchorS(report, 'output-on') ?? 0;
    const toTick = Math.ceil((lastS + BAND_SPAN_S) * TICKS_PER_SECOND);
    const columns = await reader.samples(run.id, 0, toTick, MOST_SAMPLES);
    good.push({ id: run.id, feed: run.feed, feedV: feedVOf(run), report, columns });
  }
  return good;
}

async function isUnrepaired(db: Db, jobId: string, state: string): Promise<boolean> {
  if (state !== 'closed') return false;
  const verdict = (await newestOutcome(db, jobId))?.verdict;
  return verdict === 'not-repaired' || verdict === 'returned-untouched';
}
