import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import type { Db } from './ledger-context.ts';
import { indexJob, indexRun, SEARCH_VERSION } from './search-index-store.ts';

/** Jobs that are read into the index in one transaction: some 20 ms. */
const AT_ONCE = 20;
/** A search waits while fewer jobs than this are missing. */
const WORTH_WAITING = 500;

/**
 * Reads into the index what is not in it: the jobs of a ledger from before, and those that came from
 * another ledger. In small steps, so that what is being recorded meanwhile reaches the disk in time.
 */
export class SearchCatchUp {
  readonly #db: Db;
  #running: Promise<void> | null = null;
  #isClosed = false;

  constructor(db: Db) {
    this.#db = db;
  }

  /** Jobs that are not in the index yet. */
  async missing(): Promise<number> {
    const { rows } = await sql<{ n: number }>`select
      (select count(*) from jobs) - (select count(*) from search_jobs where version = ${SEARCH_VERSION})
      as n`.execute(this.#db);
    return Math.max(0, Number(rows[0]?.n ?? 0));
  }

  /** Begins, unless it is under way. A failure shows when somebody searches. */
  start(): void {
    this.#running ??= this.#run().finally(() => {
      this.#running = null;
    });
    this.#running.catch(() => {});
  }

  /** Sees to it that a search finds what there is; answers how many jobs are still missing. */
  async ready(): Promise<number> {
    const missing = await this.missing();
    if (missing === 0) return 0;
    this.start();
    if (missing > WORTH_WAITING) return missing;
    await this.#running;
    return 0;
  }

  /** Throws the index away and makes it anew. */
  async rebuild(): Promise<number> {
    await this.#running?.catch(() => {});
    await this.#db.transaction().execute(async (db) => {
      await sql`insert into search_index(search_index) values ('delete-all')`.execute(db);
      await db.deleteFrom('search_facts').execute();
      await db.deleteFrom('search_runs').execute();
      await db.deleteFrom('search_jobs').execute();
    });
    this.start();
    return this.missing();
  }

  /** Lets go after the step that is under way. */
  async close(): Promise<void> {
    this.#isClosed = true;
    await this.#running?.catch(() => {});
  }

  async #run(): Promise<void> {
    while (!this.#isClosed) {
      const jobs = await this.#db
        .selectFrom('jobs')
        .leftJoin('search_jobs', (join) =>
          join
            .onRef('search_jobs.job_number', '=', 'jobs.number')
            .on('search_jobs.version', '=', SEARCH_VERSION),
        )
        .where('search_jobs.job_number', 'is', null)
        .select('jobs.id')
        .orderBy('jobs.number', 'desc')
        .limit(AT_ONCE)
        .execute();
      if (jobs.length === 0) return;
      await this.#db.transaction().execute(async (db) => {
        for (const { id } of jobs) {
          const runs = await db
            .selectFrom('runs')
            .select('id')
            .where('job_id', '=', id)
            .where('ended_at', 'is not', null)
            .execute();
          for (const run of runs) await indexRun(db, run.id);
          await indexJob(db, id);
        }
      });
      await setImmediate();
    }
  }
}
