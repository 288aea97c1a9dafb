import type { Selectable } from 'kysely';
import type { BoardFacts } from '../../core/job/job.ts';
import type { KnownRun } from '../../core/job/known-runs.ts';
import { hasRun, isFlatDraw, levelStretch, wokeAfterS } from '../../core/job/run-lesson.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { factsOfBoardRow, findBoardRow } from './board-store.ts';
import { jobFromRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import { newestOutcome } from './outcome-store.ts';
import { newestSummaries, readReport } from './report-store.ts';
import type { RunReader } from './run-reader.ts';
import { runFromRow } from './run-store.ts';
import type { JobRow } from './tables.ts';

/** Earlier runs of a model that are looked at, newest first. */
const MOST_RUNS = 40;
/** Samples of a running stretch that tell whether it is flat. */
const FLAT_SAMPLES = 2_000;

/**
 * Ended powered runs of a board model, newest first, with what each teaches; `notRunId` is left out,
 * so that a run that is named again is not held against itself.
 */
export async function knownRunsOfModel(
  db: Db,
  reader: RunReader,
  boardKey: string,
  notRunId: string | null = null,
): Promise<readonly KnownRun[]> {
  const rows = await db
    .selectFrom('runs')
    .innerJoin('jobs', 'jobs.id', 'runs.job_id')
    .selectAll('runs')
    .select(['jobs.id as of_job', 'jobs.state as job_state'])
    .where('jobs.board_key', '=', boardKey)
    .where('jobs.binned_at', 'is', null)
    .where('runs.kind', '=', 'powered')
    .where('runs.ended_at', 'is not', null)
    .where('runs.samples', '>', 0)
    .where('runs.id', '!=', notRunId ?? '')
    .orderBy('runs.started_at', 'desc')
    .limit(MOST_RUNS)
    .execute();
  const summaries = await newestSummaries(
    db,
    rows.map((row) => row.id),
  );
  const known: KnownRun[] = [];
  for (const row of rows) {
    const summary = summaries.get(row.id);
    if (summary === undefined) continue;
    const run = runFromRow(row, summary);
    // Only these can teach a level: the others are not worth reading whole.
    if (run.role === 'before') continue;
    if (run.role !== 'after' && run.reach?.stage !== 'running') continue;
    const report = await readReport(db, summary);
    if (run.role !== 'after' && !hasRun(report)) continue;
    const stretch = levelStretch(report);
    const outcome = row.job_state === 'closed' ? await newestOutcome(db, row.of_job) : null;
    known.push({
      role: run.role,
      reachedRunning: run.reach?.stage === 'running',
      provedGood: outcome?.verdict !== 'not-repaired' && outcome?.verdict !== 'returned-untouched',
      feed: run.feed,
      runningA: stretch?.meanA ?? run.reach?.heldA ?? null,
      runningV: stretch?.meanV ?? run.setV,
      runsFlat:
        stretch === null
          ? null
          : isFlatDraw(
              await reader.samples(
                run.id,
                Math.round(stretch.startS * TICKS_PER_SECOND),
                Math.round(stretch.endS * TICKS_PER_SECOND),
                FLAT_SAMPLES,
              ),
            ),
      wokeAfterS: wokeAfterS(report),
    });
  }
  return known;
}

const hasFacts = (facts: BoardFacts) => facts.runningA !== null || facts.runsFlat !== null;

/**
 * What is noted of a job's board: each fact on the job itself, else in the board's own table, else on
 * the newest job of the same model.
 */
export async function boardFactsFor(db: Db, job: Selectable<JobRow>): Promise<BoardFacts> {
  const own = await withBoardTable(db, job);
  if (hasFacts(own) || job.board_key === null) return own;
  const others = await db
    .selectFrom('jobs')
    .selectAll()
    .where('board_key', '=', job.board_key)
    .where('binned_at', 'is', null)
    .where((eb) => eb.or([eb('running_a', 'is not', null), eb('runs_flat', 'is not', null)]))
    .orderBy('updated_at', 'desc')
    .limit(1)
    .execute();
  const other = others[0];
  return other === undefined ? own : jobFromRow(other, null, null).board;
}

async function withBoardTable(db: Db, job: Selectable<JobRow>): Promise<BoardFacts> {
  const own = jobFromRow(job, null, null).board;
  const row = job.board_key === null ? undefined : await findBoardRow(db, job.board_key);
  if (row === undefined) return own;
  const stated = factsOfBoardRow(row);
  return {
    statedInputV: own.statedInputV ?? stated.statedInputV,
    statedLimitA: own.statedLimitA ?? stated.statedLimitA,
    runningA: own.runningA ?? stated.runningA,
    runsFlat: own.runsFlat ?? stated.runsFlat,
  };
}
