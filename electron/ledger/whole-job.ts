import type { JobWhole } from '../../core/job/job.ts';
import { itemsOfJob } from './item-store.ts';
import { findJobRow, jobOfRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import { partsOfJob } from './part-store.ts';
import { readingsOfJob } from './reading-store.ts';
import { runsOfJob } from './run-store.ts';

/** A job with all that hangs on it; null when there is none. Runs come oldest first. */
export async function readWhole(db: Db, jobId: string): Promise<JobWhole | null> {
  const row = await findJobRow(db, jobId);
  if (row === undefined) return null;
  const readings = await readingsOfJob(db, jobId);
  return {
    job: await jobOfRow(db, row),
    items: await itemsOfJob(db, jobId, readings),
    readings,
    parts: await partsOfJob(db, jobId),
    runs: await runsOfJob(db, jobId),
  };
}
