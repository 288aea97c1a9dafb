import { type Kysely, sql } from 'kysely';

/**
 * Customers, what was quoted and charged, codes on bag tags, and what a search of the jobs goes
 * through. Money is in minor units of the currency beside it. Nothing of the search is kept only
 * here: a job without a row in `search_jobs` is read into it again, and so are the jobs of a ledger
 * from before.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('customers')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('reach', 'text', (c) => c.notNull())
    .addColumn('note', 'text', (c) => c.notNull())
    .addColumn('created_at', 'bigint', (c) => c.notNull())
    .addColumn('updated_at', 'bigint', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('job_terms')
    .addColumn('job_id', 'text', (c) => c.primaryKey().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('customer_id', 'text', (c) => c.references(idOf('customers')).onDelete('set null'))
    .addColumn('waiting_for', 'text', (c) => c.notNull())
    .addColumn('warranty_until', 'text')
    .addColumn('warranty_note', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('job_terms_customer').on('job_terms').column('customer_id').execute();

  await db.schema
    .createTable('quotes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('amount_minor', 'bigint', (c) => c.notNull())
    .addColumn('currency', 'text', (c) => c.notNull())
    .addColumn('words', 'text', (c) => c.notNull())
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .addColumn('answer', 'text', (c) => c.notNull())
    .addColumn('answered_at', 'bigint')
    .addColumn('answered_how', 'text', (c) => c.notNull())
    .addColumn('answer_note', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('quotes_job').on('quotes').column('job_id').execute();

  await db.schema
    .createTable('charges')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('words', 'text', (c) => c.notNull())
    .addColumn('part_id', 'text', (c) => c.references(idOf('parts')).onDelete('set null'))
    .addColumn('quantity_milli', 'bigint', (c) => c.notNull())
    .addColumn('minutes', 'integer', (c) => c.notNull())
    .addColumn('unit_minor', 'bigint', (c) => c.notNull())
    .addColumn('currency', 'text', (c) => c.notNull())
    .addColumn('added_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('charges_job').on('charges').column('job_id').execute();

  await db.schema
    .createTable('job_tags')
    .addColumn('code', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('job_tags_job').on('job_tags').column('job_id').execute();

  await db.schema
    .createTable('search_jobs')
    .addColumn('job_number', 'integer', (c) =>
      c.primaryKey().references('jobs.number').onDelete('cascade'),
    )
    .addColumn('version', 'integer', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('search_runs')
    .addColumn('run_id', 'text', (c) => c.primaryKey().references('runs.id').onDelete('cascade'))
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('text', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('search_runs_job').on('search_runs').column('job_id').execute();

  await db.schema
    .createTable('search_facts')
    .addColumn('job_number', 'integer', (c) =>
      c.notNull().references('jobs.number').onDelete('cascade'),
    )
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('word', 'text', (c) => c.notNull())
    .addColumn('verdict', 'text', (c) => c.notNull())
    .addColumn('amount', 'double precision')
    .addColumn('volts', 'double precision')
    .addColumn('ref_id', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createIndex('search_facts_amount')
    .on('search_facts')
    .columns(['kind', 'word', 'amount', 'job_number'])
    .execute();
  await db.schema
    .createIndex('search_facts_verdict')
    .on('search_facts')
    .columns(['kind', 'verdict', 'word', 'job_number'])
    .execute();
  await db.schema
    .createIndex('search_facts_ref')
    .on('search_facts')
    .columns(['job_number', 'ref_id'])
    .execute();
  await db.schema.createIndex('jobs_created').on('jobs').columns(['created_at', 'id']).execute();

  // What goes in is folded already, in the same way as what is typed: the tokenizer only splits.
  await sql`create virtual table search_index using fts5(
    facts, customer, notes, parts, outcome, readings, runs, codes,
    content='', contentless_delete=1, prefix='2 3',
    tokenize='unicode61 remove_diacritics 0')`.execute(db);
}
