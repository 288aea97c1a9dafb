import type { Insertable, Selectable } from 'kysely';
import type { Feed, Run } from '../../core/job/job.ts';
import type { TrackerSettings } from '../../core/stages/stage.ts';
import type { Db } from './ledger-context.ts';
import type { RunStart } from './recorder-calls.ts';
import { newestSummaries, reachOf } from './report-store.ts';
import { type ClassificationRow, flag, type RunRow } from './tables.ts';

/** The columns behind a feed. */
export function feedColumns(feed: Feed) {
  return {
    feed_point: feed.point,
    feed_cells: flag(feed.cells),
    feed_screen: flag(feed.screen),
    feed_drive: flag(feed.drive),
    feed_note: feed.note,
  } satisfies Partial<Insertable<RunRow>>;
}

/** A run from its row and its newest classification. */
export function runFromRow(
  row: Selectable<RunRow>,
  summary: Selectable<ClassificationRow> | undefined,
): Run {
  return {
    id: row.id,
    jobId: row.job_id,
    kind: row.kind as Run['kind'],
    startedAt: row.started_at,
    utcOffsetMin: row.utc_offset_min,
    endedAt: row.ended_at,
    end: row.end_reason as Run['end'],
    feed: {
      point: row.feed_point as Feed['point'],
      cells: row.feed_cells === 1,
      screen: row.feed_screen === 1,
      drive: row.feed_drive === 1,
      note: row.feed_note,
    },
    setV: row.set_v,
    limitA: row.limit_a,
    instrument: row.instrument,
    pretend: row.pretend === 1,
    samples: row.samples,
    durationS: row.duration_s,
    reach: summary === undefined ? null : reachOf(summary),
    peakA: summary?.peak_a ?? null,
    energyWh: summary?.energy_wh ?? null,
    role: row.role as Run['role'],
  };
}

export async function insertRunRow(db: Db, id: string, start: RunStart): Promise<void> {
  await db
    .insertInto('runs')
    .values({
      id,
      job_id: start.jobId,
      kind: start.kind,
      started_at: start.startedAt,
      utc_offset_min: start.utcOffsetMin,
      ended_at: null,
      end_reason: null,
      ...feedColumns(start.feed),
      set_v: start.setV,
      limit_a: start.limitA,
      instrument: start.instrument,
      pretend: flag(start.pretend),
      role: null,
      settings_json: JSON.stringify(start.settings),
      samples: 0,
      duration_s: 0,
    })
    .execute();
}

export function findRunRow(db: Db, id: string): Promise<Selectable<RunRow> | undefined> {
  return db.selectFrom('runs').selectAll().where('id', '=', id).executeTakeFirst();
}

/** Rows turned into runs, each with its newest classification. */
export async function runsOfRows(
  db: Db,
  rows: readonly Selectable<RunRow>[],
): Promise<readonly Run[]> {
  const summaries = await newestSummaries(
    db,
    rows.map((row) => row.id),
  );
  return rows.map((row) => runFromRow(row, summaries.get(row.id)));
}

/** Runs of a job, or those of no job, oldest first. */
export async function runsOfJob(db: Db, jobId: string | null): Promise<readonly Run[]> {
  const rows = await db
    .selectFrom('runs')
    .selectAll()
    .where('job_id', jobId === null ? 'is' : '=', jobId)
    .orderBy('started_at')
    .orderBy('id')
    .execute();
  return runsOfRows(db, rows);
}

/** The newest powered runs of a job that have ended, newest first. */
export async function newestRunsOfJob(
  db: Db,
  jobId: string,
  limit: number,
): Promise<readonly Run[]> {
  const rows = await db
    .selectFrom('runs')
    .selectAll()
    .where('job_id', '=', jobId)
    .where('kind', '=', 'powered')
    .where('ended_at', 'is not', null)
    .orderBy('started_at', 'desc')
    .limit(limit)
    .execute();
  return runsOfRows(db, rows);
}

export async function updateRunRow(
  db: Db,
  id: string,
  columns: Partial<Insertable<RunRow>>,
): Promise<void> {
  await db.updateTable('runs').set(columns).where('id', '=', id).execute();
}

/** What the tracker was told when the run began. */
export const settingsOfRun = (row: Selectable<RunRow>): TrackerSettings =>
  JSON.parse(row.settings_json) as TrackerSettings;
