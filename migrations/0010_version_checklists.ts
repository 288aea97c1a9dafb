import type { Kysely } from 'kysely';

/**
 * The shop's own versions of checklist templates: a row a version, never changed, so that a job goes
 * on with the one it began with. On items which gate they are and whose initials settled them. On
 * parts the equivalence as it was judged, who agreed to leave one off, and which lifted part was put
 * back. A part that went back to its donor board leaves the takes, which hold what is gone, and is
 * told here. Rows from before have none of this and read as before.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('checklist_templates')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('key', 'text', (c) => c.notNull())
    .addColumn('version', 'integer', (c) => c.notNull())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('steps_json', 'text', (c) => c.notNull())
    .addColumn('origin', 'text', (c) => c.notNull())
    .addColumn('lost_json', 'text', (c) => c.notNull())
    .addColumn('made_by', 'text', (c) => c.notNull())
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .addUniqueConstraint('checklist_templates_version', ['key', 'version'])
    .execute();

  await db.schema
    .alterTable('jobs')
    .addColumn('template_id', 'text', (c) => c.references(idOf('checklist_templates')))
    .execute();

  await db.schema.alterTable('checklist_items').addColumn('gate', 'text').execute();
  await db.schema
    .alterTable('checklist_items')
    .addColumn('done_by', 'text', (c) => c.notNull().defaultTo(''))
    .execute();

  await db.schema.alterTable('part_details').addColumn('equivalence_json', 'text').execute();
  await db.schema
    .alterTable('part_details')
    .addColumn('agreed_by', 'text', (c) => c.notNull().defaultTo(''))
    .execute();
  await db.schema.alterTable('part_details').addColumn('put_back_of', 'text').execute();

  await db.schema
    .createTable('donor_returns')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('donor_id', 'text', (c) => c.notNull().references(idOf('donor_boards')))
    .addColumn('designator', 'text', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('job_id', 'text', (c) => c.references(idOf('jobs')).onDelete('set null'))
    .addColumn('taken_at', 'bigint', (c) => c.notNull())
    .addColumn('returned_at', 'bigint', (c) => c.notNull())
    .addColumn('why', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createIndex('donor_returns_donor')
    .on('donor_returns')
    .column('donor_id')
    .execute();
}
