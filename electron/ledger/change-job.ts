import { findJobRow, updateJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { indexJob } from './search-index-store.ts';

/**
 * Changes something of a job in one transaction: all of it or nothing. Its time of change and its
 * search words follow, and who listens is told once it is committed. Throws `not-found`.
 */
export async function changeJobWith<T>(
  context: LedgerContext,
  jobId: string,
  change: (db: Db) => Promise<T>,
): Promise<T> {
  const answer = await context.db.transaction().execute(async (db) => {
    if ((await findJobRow(db, jobId)) === undefined) throw missing('job', jobId);
    const changed = await change(db);
    await updateJobRow(db, jobId, { updated_at: context.now() });
    await indexJob(db, jobId);
    return changed;
  });
  context.jobChanged(jobId);
  return answer;
}
