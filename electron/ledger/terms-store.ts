import type { Insertable } from 'kysely';
import type { Outcome } from '../../core/job/job.ts';
import { WAITING_FOR, type WaitingFor } from '../../core/job/waiting-for.ts';
import type { Charge } from '../../core/shop/charge.ts';
import type { AnsweredHow, JobTerms, Quote, Visit } from '../../core/shop/job-terms.ts';
import { findCustomer } from './customer-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import { missing } from './missing.ts';
import { newestOutcome } from './outcome-store.ts';
import type { JobTermsRow } from './shop-tables.ts';

/** Everything that was agreed on a job, and its serial number's other visits. */
export async function termsOfJob(db: Db, jobId: string): Promise<JobTerms> {
  const job = await findJobRow(db, jobId);
  if (job === undefined) throw missing('job', jobId);
  const row = await db
    .selectFrom('job_terms')
    .selectAll()
    .where('job_id', '=', jobId)
    .executeTakeFirst();
  const customerId = row?.customer_id ?? null;
  return {
    jobId,
    customer: customerId === null ? null : await findCustomer(db, customerId),
    waitingFor: job.state === 'waiting' ? waitingForOf(row?.waiting_for ?? '') : null,
    warrantyUntil: row?.warranty_until ?? null,
    warrantyNote: row?.warranty_note ?? '',
    quotes: await quotesOfJob(db, jobId),
    charges: await chargesOfJob(db, jobId),
    visits: await otherVisits(db, jobId, job.serial_key),
  };
}

/** What a stored word means; null for '' and for words of another version. */
export const waitingForOf = (stored: string): WaitingFor | null =>
  WAITING_FOR.find((word) => word === stored) ?? null;

async function quotesOfJob(db: Db, jobId: string): Promise<readonly Quote[]> {
  const rows = await db
    .selectFrom('quotes')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('made_at')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    amountMinor: row.amount_minor,
    currency: row.currency,
    words: row.words,
    madeAt: row.made_at,
    answer: row.answer as Quote['answer'],
    answeredAt: row.answered_at,
    answeredHow: row.answered_how === '' ? null : (row.answered_how as AnsweredHow),
    answerNote: row.answer_note,
  }));
}

async function chargesOfJob(db: Db, jobId: string): Promise<readonly Charge[]> {
  const rows = await db
    .selectFrom('charges')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('added_at')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    kind: row.kind as Charge['kind'],
    words: row.words,
    partId: row.part_id,
    quantityMilli: row.quantity_milli,
    minutes: row.minutes,
    unitMinor: row.unit_minor,
    currency: row.currency,
    addedAt: row.added_at,
  }));
}

async function otherVisits(db: Db, jobId: string, serialKey: string): Promise<readonly Visit[]> {
  if (serialKey === '') return [];
  const rows = await db
    .selectFrom('jobs')
    .leftJoin('job_terms', 'job_terms.job_id', 'jobs.id')
    .select(['jobs.id', 'number', 'created_at', 'state', 'warranty_until'])
    .where('serial_key', '=', serialKey)
    .where('jobs.id', '!=', jobId)
    .where('binned_at', 'is', null)
    .orderBy('created_at')
    .execute();
  const visits: Visit[] = [];
  for (const row of rows) {
    const outcome: Outcome | null = row.state === 'closed' ? await newestOutcome(db, row.id) : null;
    visits.push({
      id: row.id,
      number: row.number,
      createdAt: row.created_at,
      state: row.state as Visit['state'],
      verdict: outcome?.verdict ?? null,
      warrantyUntil: row.warranty_until,
    });
  }
  return visits;
}

/** Writes some of a job's terms and leaves the others as they are. */
export async function writeTerms(
  db: Db,
  jobId: string,
  columns: Partial<Omit<Insertable<JobTermsRow>, 'job_id'>>,
): Promise<void> {
  const fresh = { customer_id: null, waiting_for: '', warranty_until: null, warranty_note: '' };
  await db
    .insertInto('job_terms')
    .values({ ...fresh, ...columns, job_id: jobId })
    .onConflict((c) => c.column('job_id').doUpdateSet({ job_id: jobId, ...columns }))
    .execute();
}
