import { shopTable } from '../../core/cases/cause-tree.ts';
import { proofOf } from '../../core/evidence/past-case.ts';
import type { DonorUse, FigureCase } from '../../core/figures/shop-figures.ts';
import type { Outcome } from '../../core/job/job.ts';
import { shopCauses } from './case-store.ts';
import type { Db } from './ledger-context.ts';

/** Every job in the book as the figures see it, oldest first. */
export async function figureCases(db: Db): Promise<readonly FigureCase[]> {
  const jobs = await db
    .selectFrom('jobs')
    .select([
      'id',
      'number',
      'board_key',
      'board_model',
      'serial_key',
      'created_at',
      'state',
      'comeback_of',
    ])
    .where('binned_at', 'is', null)
    .orderBy('created_at')
    .execute();
  const parts = await db
    .selectFrom('parts')
    .select((eb) => ['job_id', eb.fn.min('at').as('first_at')])
    .groupBy('job_id')
    .execute();
  const firstPart = new Map(parts.map((row) => [row.job_id, Number(row.first_at)]));
  const outcomes = await db
    .selectFrom('outcomes')
    .leftJoin('outcome_details as d', 'd.outcome_id', 'outcomes.id')
    .select([
      'outcomes.job_id',
      'outcomes.verdict',
      'outcomes.cause',
      'outcomes.closed_at',
      'd.cause_key',
      'd.changed',
      'd.reading_came_back',
      'd.board_woke',
    ])
    .orderBy('outcomes.id')
    .execute();
  const byJob = new Map<string, typeof outcomes>();
  for (const row of outcomes) byJob.set(row.job_id, [...(byJob.get(row.job_id) ?? []), row]);
  const causes = new Map(
    shopTable(await shopCauses(db)).causes.map(({ key, text }) => [key, text]),
  );
  return jobs.map((job) => {
    const ends = byJob.get(job.id) ?? [];
    const last = ends.at(-1);
    const key = last?.cause_key ?? null;
    const steps = {
      changed: last?.changed === 1,
      readingCameBack: last?.reading_came_back === 1,
      boardWoke: last?.board_woke === 1,
    };
    // A cause that was only written in words was not picked from the tree, so nobody proved it there.
    const typed = last?.cause.trim() ?? '';
    return {
      jobId: job.id,
      number: job.number,
      boardKey: job.board_key,
      boardName: job.board_model,
      serialKey: job.serial_key,
      takenInAt: job.created_at,
      firstClosedAt: ends[0]?.closed_at ?? null,
      closedAt: last?.closed_at ?? null,
      isClosed: job.state === 'closed',
      verdict: (last?.verdict ?? null) as Outcome['verdict'] | null,
      cause: key !== null ? (causes.get(key) ?? key) : typed === '' ? null : typed,
      proof: key !== null ? proofOf(key, steps) : typed === '' ? 'unsolved' : 'guessed',
      firstPartAt: firstPart.get(job.id) ?? null,
      closings: ends.length,
      comebackOf: job.comeback_of,
    };
  });
}

/** Parts taken from donors in a period, by the donors' model. */
export async function donorUse(db: Db, fromMs: number, toMs: number): Promise<readonly DonorUse[]> {
  const rows = await db
    .selectFrom('donor_takes')
    .innerJoin('donor_boards', 'donor_boards.id', 'donor_takes.donor_id')
    .select((eb) => [
      'donor_boards.board_model',
      eb.fn.countAll<number>().as('parts'),
      eb.fn.count<number>('donor_takes.donor_id').distinct().as('boards'),
    ])
    .where('taken_at', '>=', fromMs)
    .where('taken_at', '<', toMs)
    .groupBy('donor_boards.board_key')
    .execute();
  return rows.map((row) => ({
    boardModel: row.board_model,
    parts: Number(row.parts),
    boards: Number(row.boards),
  }));
}
