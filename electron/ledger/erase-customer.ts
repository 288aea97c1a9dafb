import { setImmediate } from 'node:timers/promises';
import { sql } from 'kysely';
import { jobsOfCustomer } from './customer-store.ts';
import type { Db } from './ledger-context.ts';
import { indexJob } from './search-index-store.ts';

/** Pages of the index that are merged in one step, and steps at most. */
const PAGES = 400;
const MOST_STEPS = 2_000;

/**
 * Forgets a customer: the row, the name on their jobs and in what those are searched by, and what
 * the file still held of it. Answers the ids of the jobs, which stay. Copies of the ledger and
 * printed records are beyond its reach.
 */
export async function eraseCustomer(db: Db, id: string): Promise<readonly string[]> {
  const jobs = await jobsOfCustomer(db, id);
  // Deleted rows are overwritten instead of only being given up.
  await sql`pragma secure_delete = on`.execute(db);
  try {
    await db.transaction().execute(async (trx) => {
      await trx.deleteFrom('customers').where('id', '=', id).execute();
      for (const jobId of jobs) {
        await trx
          .updateTable('jobs')
          .set({ customer: '', search_text: '' })
          .where('id', '=', jobId)
          .execute();
        await indexJob(trx, jobId);
      }
    });
    await dropOldWords(db);
  } finally {
    await sql`pragma secure_delete = off`.execute(db);
  }
  await sql`pragma wal_checkpoint(truncate)`.execute(db);
  return jobs;
}

/** The index lets go of replaced words only when its pieces are merged: step by step, so that a run is kept meanwhile. */
async function dropOldWords(db: Db): Promise<void> {
  const changes = async () => {
    const { rows } = await sql<{ n: number }>`select total_changes() as n`.execute(db);
    return Number(rows[0]?.n ?? 0);
  };
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const before = await changes();
    // The first negative count marks every piece for the merge (FTS5's documentation, 6.8).
    const pages = step === 0 ? -PAGES : PAGES;
    await sql`insert into search_index(search_index, rank) values ('merge', ${pages})`.execute(db);
    if ((await changes()) - before < 2) return;
    await setImmediate();
  }
}
