import { sql } from 'kysely';
import { codeWords } from '../../core/search/code-words.ts';
import { wordsOf } from '../../core/search/fold-words.ts';
import type { SearchFact, SearchPlace } from '../../core/search/search-piece.ts';
import { findJobRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import { newestSummaries } from './report-store.ts';
import { findRunRow } from './run-store.ts';
import { searchFacts, searchPieces } from './search-pieces.ts';

/** Grows when what the index holds changes: rows of an older version are read again. */
export const SEARCH_VERSION = 1;
/** Rows of one insert: SQLite takes so many values at once. */
const SLICE = 200;

/**
 * Writes anew what searches find a job by, apart from its runs; call it in the transaction that
 * changed the job. Costs as much as the job has written, whatever the number of its runs.
 */
export async function indexJob(db: Db, jobId: string): Promise<void> {
  const job = await findJobRow(db, jobId);
  if (job === undefined) return;
  const texts: Record<SearchPlace, string[]> = {
    facts: [],
    customer: [],
    notes: [],
    parts: [],
    outcome: [],
    readings: [],
    runs: [],
  };
  for (const piece of await searchPieces(db, jobId)) texts[piece.place].push(piece.text);
  // A sign that is no word parts the pieces, so that no phrase reaches from one into the next.
  const say = (place: SearchPlace) =>
    texts[place].map((text) => wordsOf(text).join(' ')).join(' _ ');
  const codes = codeWords(job.serial_number, job.board_model).join(' ');
  await sql`insert or replace into search_index
    (rowid, facts, customer, notes, parts, outcome, readings, runs, codes)
    values (${job.number}, ${say('facts')}, ${say('customer')}, ${say('notes')}, ${say('parts')},
      ${say('outcome')}, ${say('readings')}, ${say('runs')}, ${codes})`.execute(db);
  await db
    .deleteFrom('search_facts')
    .where('job_number', '=', job.number)
    .where('kind', '!=', 'stage')
    .execute();
  await insertFacts(db, job.number, await searchFacts(db, jobId));
  await db
    .insertInto('search_jobs')
    .values({ job_number: job.number, version: SEARCH_VERSION })
    .onConflict((c) => c.column('job_number').doUpdateSet({ version: SEARCH_VERSION }))
    .execute();
}

/**
 * Writes anew what a run adds to its job: its notes and the stages of its newest classification.
 * Call it before `indexJob` in the transaction that ended, moved or changed the run.
 */
export async function indexRun(db: Db, runId: string): Promise<void> {
  const run = await findRunRow(db, runId);
  if (run === undefined) return;
  await db.deleteFrom('search_runs').where('run_id', '=', runId).execute();
  const job = run.job_id === null ? undefined : await findJobRow(db, run.job_id);
  const before = await db
    .selectFrom('search_facts')
    .select('job_number')
    .where('ref_id', '=', runId)
    .where('kind', '=', 'stage')
    .where('job_number', '=', job?.number ?? -1)
    .limit(1)
    .execute();
  if (before.length > 0) await dropStages(db, job!.number, runId);
  if (job === undefined || run.ended_at === null) return;
  const summary = (await newestSummaries(db, [runId])).get(runId);
  const marks =
    summary === undefined
      ? []
      : await db
          .selectFrom('marks')
          .select('text')
          .where('classification_id', '=', summary.id)
          .where('mark', '=', 'note')
          .execute();
  const notes = await db
    .selectFrom('run_notes')
    .select('text')
    .where('run_id', '=', runId)
    .execute();
  const said = [run.feed_note, ...[...marks, ...notes].map((row) => row.text)];
  const text = said.filter((one) => one.trim() !== '').join('; ');
  if (text !== '') {
    await db.insertInto('search_runs').values({ run_id: runId, job_id: job.id, text }).execute();
  }
  if (summary === undefined || run.kind !== 'powered') return;
  const stages = await db
    .selectFrom('stages')
    .select(['stage', 'mean_a', 'mean_v'])
    .where('classification_id', '=', summary.id)
    .where('stage', '!=', 'off')
    .execute();
  await insertFacts(
    db,
    job.number,
    stages.map((row) => ({
      kind: 'stage',
      word: row.stage,
      verdict: '',
      amount: row.mean_a,
      volts: row.mean_v,
      refId: runId,
    })),
  );
}

/** Takes a run's words and stages away from the job that it leaves. */
export async function unindexRun(db: Db, jobId: string, runId: string): Promise<void> {
  const job = await findJobRow(db, jobId);
  if (job !== undefined) await dropStages(db, job.number, runId);
}

async function dropStages(db: Db, jobNumber: number, runId: string): Promise<void> {
  await db
    .deleteFrom('search_facts')
    .where('job_number', '=', jobNumber)
    .where('ref_id', '=', runId)
    .execute();
}

async function insertFacts(
  db: Db,
  job_number: number,
  facts: readonly SearchFact[],
): Promise<void> {
  for (let at = 0; at < facts.length; at += SLICE) {
    const rows = facts.slice(at, at + SLICE).map(({ refId, ...fact }) => ({
      ...fact,
      job_number,
      ref_id: refId,
    }));
    await db.insertInto('search_facts').values(rows).execute();
  }
}

/** Lets the next search read these jobs again, with their runs. */
export async function readAgainForSearch(db: Db, jobIds: readonly string[]): Promise<void> {
  for (const id of jobIds) {
    await db
      .deleteFrom('search_jobs')
      .where('job_number', '=', (eb) => eb.selectFrom('jobs').select('number').where('id', '=', id))
      .execute();
  }
}

/** Takes jobs out of the full-text index; their rows elsewhere go with the jobs. */
export async function unindexJobs(db: Db, numbers: readonly number[]): Promise<void> {
  for (const number of numbers) {
    await sql`delete from search_index where rowid = ${number}`.execute(db);
  }
}
