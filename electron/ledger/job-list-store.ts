import { sql } from 'kysely';
import type { JobLine } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';

/** Makes `%`, `_` and the escape sign itself mean themselves in LIKE. */
const literal = (word: string) => word.replace(/[\\%_]/gu, (sign) => `\\${sign}`);

/** Jobs as lines, newest first: those in the book, or those in the bin. */
export async function jobLines(
  db: Db,
  o: { words: readonly string[]; limit: number | null; binned: boolean },
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
  for (const word of o.words) {
    const number = /^#(\d{1,9})$/u.exec(word)?.[1];
    if (number !== undefined) {
      query = query.where('number', '=', Number(number));
      continue;
    }
    query = query.where(sql<boolean>`search_text like ${`%${literal(word)}%`} escape '\\'`);
  }
  if (o.limit !== null) query = query.limit(o.limit);
  const rows = await query.execute();
  return rows.map((row) => ({
    id: row.id,
    number: row.number,
    boardModel: row.board_model,
    serialNumber: row.serial_number,
    symptom: row.symptom,
    state: row.state as JobLine['state'],
    createdAt: row.created_at,
    updatedAt: row.updated_at,
    runs: Number(row.runs ?? 0),
    lastReach: row.last_reach as JobLine['lastReach'],
    isComeback: row.comeback_of !== null,
    verdict: row.state === 'closed' ? (row.verdict as JobLine['verdict']) : null,
  }));
}
