import type { FaultPrior } from '../../core/rails/fault.ts';
import type { Db } from './ledger-context.ts';
import { newestSummaries } from './report-store.ts';

/**
 * What the supply showed in a job's newest powered run that began in `[fromMs, toMs)`: at its limit,
 * nothing, or some draw. Null when there was no such run, or nobody looked at it.
 */
export async function drawOfJob(
  db: Db,
  jobId: string,
  fromMs: number,
  toMs: number,
): Promise<FaultPrior['draw']> {
  let query = db
    .selectFrom('runs')
    .select('id')
    .where('job_id', '=', jobId)
    .where('kind', '=', 'powered')
    .where('started_at', '>=', fromMs);
  if (Number.isFinite(toMs)) query = query.where('started_at', '<', toMs);
  const run = await query.orderBy('started_at', 'desc').limit(1).executeTakeFirst();
  if (run === undefined) return null;
  const summary = (await newestSummaries(db, [run.id])).get(run.id);
  if (summary === undefined || summary.reach_stage === 'off') return null;
  const stages = await db
    .selectFrom('stages')
    .select('stage')
    .where('classification_id', '=', summary.id)
    .where('stage', '!=', 'off')
    .orderBy('seq', 'desc')
    .limit(1)
    .execute();
  if (stages[0]?.stage === 'limited') return 'limited';
  return summary.reach_stage === 'no-draw' ? 'none' : 'some';
}
