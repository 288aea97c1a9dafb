import type { JobLine } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';
import { waitingForOf } from './terms-store.ts';

/** Jobs as lines, newest first: those in the book, or those in the bin; of `numbers` alone when given. */
export async function jobLines(
  db: Db,
  o: { numbers: readonly number[] | null; limit: number | null; binned: boolean },
): Promise<readonly JobLine[]> {
  let query = db
    .selectFrom('jobs')
    .where('binned_at', o.binned ? 'is not' : 'is', null)
    .orderBy('created_at', 'desc')
    .orderBy('id', 'desc')
    .select([
      'id',
      'number',
      'board_model',
      'serial_number',
      'symptom',
      'state',
      'created_at',
      'updated_at',
      'comeback_of',
    ])
    .select((eb) => [
      eb
        .selectFrom('job_terms')
        .whereRef('job_terms.job_id', '=', 'jobs.id')
        .select('job_terms.waiting_for')
        .as('waiting_for'),
      eb
        .selectFrom('runs')
        .whereRef('runs.job_id', '=', 'jobs.id')
        .where('runs.kind', '=', 'powered')
        .select((e) => e.fn.countAll<number>().as('n'))
        .as('runs'),
      eb
        .selectFrom('runs')
        .innerJoin('classifications as c', 'c.run_id', 'runs.id')
        .whereRef('runs.job_id', '=', 'jobs.id')
        .where('runs.kind', '=', 'powered')
        .orderBy('runs.started_at', 'desc')
        .orderBy('c.id', 'desc')
        .limit(1)
        .select('c.reach_stage')
        .as('last_reach'),
      eb
        .selectFrom('outcomes')
        .whereRef('outcomes.job_id', '=', 'jobs.id')
        .orderBy('outcomes.id', 'desc')
        .limit(1)
        .select('outcomes.verdict')
        .as('verdict'),
    ]);
  if (o.numbers !== null) query = query.where('number', 'in', [...o.numbers]);
  if (o.limit !== null) query = query.limit(o.limit);
  const rows = await query.execute();
  return rows.map((row) => ({
    id: row.id,
    number: row.number,
    boardModel: row.board_model,
    serialNumber: row.serial_number,
    symptom: row.symptom,
    state: row.state as JobLine['state'],
    waitingFor: row.state === 'waiting' ? waitingForOf(row.waiting_for ?? '') : null,
    createdAt: row.created_at,
    updatedAt: row.updated_at,
    runs: Number(row.runs ?? 0),
    lastReach: row.last_reach as JobLine['lastReach'],
    isComeback: row.comeback_of !== null,
    verdict: row.state === 'closed' ? (row.verdict as JobLine['verdict']) : null,
  }));
}
