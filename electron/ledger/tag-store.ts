import { tagCodeFrom } from '../../core/tags/tag-code.ts';
import type { Db } from './ledger-context.ts';

/** Draws before the codes are called used up: with 100,000 jobs two in a hundred are taken. */
const MOST_DRAWS = 200;

/** The newest code of a job's tag; makes one, unlike every other, when there is none. Null = all are taken. */
export async function tagOfJob(
  db: Db,
  jobId: string,
  o: { at: number; random: () => number },
): Promise<string | null> {
  const known = await db
    .selectFrom('job_tags')
    .select('code')
    .where('job_id', '=', jobId)
    .orderBy('made_at', 'desc')
    .limit(1)
    .executeTakeFirst();
  if (known !== undefined) return known.code;
  for (let draw = 0; draw < MOST_DRAWS; draw += 1) {
    const code = tagCodeFrom(o.random());
    const made = await db
      .insertInto('job_tags')
      .values({ code, job_id: jobId, made_at: o.at })
      .onConflict((c) => c.column('code').doNothing())
      .executeTakeFirst();
    if (Number(made.numInsertedOrUpdatedRows ?? 0) > 0) return code;
  }
  return null;
}

/** The job in the book that a code is of; null when there is none. */
export async function jobOfTag(
  db: Db,
  code: string,
): Promise<{ readonly jobId: string; readonly number: number } | null> {
  const row = await db
    .selectFrom('job_tags')
    .innerJoin('jobs', 'jobs.id', 'job_tags.job_id')
    .select(['jobs.id', 'jobs.number'])
    .where('code', '=', code)
    .where('binned_at', 'is', null)
    .executeTakeFirst();
  return row === undefined ? null : { jobId: row.id, number: row.number };
}
