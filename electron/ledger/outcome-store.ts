import type { Outcome } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';

/** How a job ended the last time it was closed; null when it never was. */
export async function newestOutcome(db: Db, jobId: string): Promise<Outcome | null> {
  const row = await db
    .selectFrom('outcomes')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('id', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (row === undefined) return null;
  return {
    verdict: row.verdict as Outcome['verdict'],
    cause: row.cause,
    provedBy: row.proved_by,
    misledBy: row.misled_by,
    closedAt: row.closed_at,
  };
}

/** Adds an outcome; a job that was reopened keeps its earlier ones. */
export async function insertOutcome(
  db: Db,
  id: string,
  jobId: string,
  outcome: Outcome,
): Promise<void> {
  await db
    .insertInto('outcomes')
    .values({
      id,
      job_id: jobId,
      verdict: outcome.verdict,
      cause: outcome.cause,
      proved_by: outcome.provedBy,
      misled_by: outcome.misledBy,
      closed_at: outcome.closedAt,
    })
    .execute();
}
