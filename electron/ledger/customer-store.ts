import type { Selectable } from 'kysely';
import { wordsOf } from '../../core/search/fold-words.ts';
import type { Customer } from '../../core/shop/job-terms.ts';
import type { Db } from './ledger-context.ts';
import type { CustomerRow } from './shop-tables.ts';

function customerFromRow(row: Selectable<CustomerRow> & { jobs: unknown }): Customer {
  const { id, name, reach, note } = row;
  return { id, name, reach, note, jobs: Number(row.jobs) };
}

const withJobs = (db: Db) =>
  db
    .selectFrom('customers')
    .selectAll('customers')
    .select((eb) =>
      eb
        .selectFrom('job_terms')
        .innerJoin('jobs', 'jobs.id', 'job_terms.job_id')
        .whereRef('job_terms.customer_id', '=', 'customers.id')
        .where('jobs.binned_at', 'is', null)
        .select((e) => e.fn.countAll<number>().as('n'))
        .as('jobs'),
    );

/** A customer by id; null when there is none. */
export async function findCustomer(db: Db, id: string): Promise<Customer | null> {
  const row = await withJobs(db).where('customers.id', '=', id).executeTakeFirst();
  return row === undefined ? null : customerFromRow(row);
}

/** Customers by name, each of whom has every word somewhere at the beginning of a word. */
export async function customersLike(
  db: Db,
  search: string,
  limit: number,
): Promise<readonly Customer[]> {
  const rows = await db.selectFrom('customers').select(['id', 'name', 'reach']).execute();
  const wanted = wordsOf(search);
  const found = rows
    .map((row) => ({ ...row, words: wordsOf(`${row.name} ${row.reach}`) }))
    .filter(({ words }) => wanted.every((word) => words.some((one) => one.startsWith(word))))
    .sort((a, b) => a.name.localeCompare(b.name, 'en') || (a.id < b.id ? -1 : 1))
    .slice(0, limit);
  const customers: Customer[] = [];
  for (const { id } of found) customers.push((await findCustomer(db, id))!);
  return customers;
}

/** Ids of a customer's jobs, in the bin or not. */
export async function jobsOfCustomer(db: Db, id: string): Promise<readonly string[]> {
  const rows = await db
    .selectFrom('job_terms')
    .select('job_id')
    .where('customer_id', '=', id)
    .execute();
  return rows.map((row) => row.job_id);
}
