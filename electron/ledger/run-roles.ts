import type { Db } from './ledger-context.ts';

/** True when a part has been fitted in a job: what runs from now on comes after a repair. */
export async function hasFit(db: Db, jobId: string): Promise<boolean> {
  const fit = await db
    .selectFrom('parts')
    .select('id')
    .where('job_id', '=', jobId)
    .where('action', '=', 'fitted')
    .limit(1)
    .executeTakeFirst();
  return fit !== undefined;
}

/**
 * Calls a job's powered runs so far "before repair", where the technician said nothing else. Call it
 * when the first part is fitted, in the same transaction: until then nobody knows what a run was.
 */
export async function callRunsBefore(db: Db, jobId: string): Promise<void> {
  await db
    .updateTable('runs')
    .set({ role: 'before' })
    .where('job_id', '=', jobId)
    .where('kind', '=', 'powered')
    .where('role', 'is', null)
    .execute();
}
