import type { Kysely } from 'kysely';

/**
 * Donor boards as stock, what a board model carries and what was taken; the shop's own causes; and
 * beside parts and outcomes what their plain lines leave out. The plain lines stay as they were, so a
 * job without any of this reads as before.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('donor_boards')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('board_model', 'text', (c) => c.notNull())
    .addColumn('board_key', 'text', (c) => c.notNull())
    .addColumn('shelf', 'text', (c) => c.notNull())
    .addColumn('note', 'text', (c) => c.notNull())
    .addColumn('added_at', 'bigint', (c) => c.notNull())
    .addColumn('gone_at', 'bigint')
    .execute();

  await db.schema
    .createTable('model_parts')
    .addColumn('board_key', 'text', (c) => c.notNull())
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('designator', 'text', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('known_from', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('model_parts_key', ['board_key', 'designator'])
    .execute();

  await db.schema
    .createTable('donor_takes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('donor_id', 'text', (c) => c.notNull().references(idOf('donor_boards')))
    .addColumn('designator', 'text', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('job_id', 'text', (c) => c.references(idOf('jobs')).onDelete('set null'))
    .addColumn('part_id', 'text', (c) => c.references(idOf('parts')).onDelete('set null'))
    .addColumn('taken_at', 'bigint', (c) => c.notNull())
    .addUniqueConstraint('donor_takes_once', ['donor_id', 'designator'])
    .execute();

  await db.schema
    .createTable('part_details')
    .addColumn('part_id', 'text', (c) =>
      c.primaryKey().references(idOf('parts')).onDelete('cascade'),
    )
    .addColumn('spec_json', 'text')
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('critical', 'integer')
    .addColumn('rail_v', 'double precision')
    .addColumn('known_from', 'text', (c) => c.notNull())
    .addColumn('left_off', 'text', (c) => c.notNull())
    .addColumn('decision', 'text', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('shop_causes')
    .addColumn('key', 'text', (c) => c.primaryKey())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('parent', 'text')
    .addColumn('is_bench', 'integer', (c) => c.notNull())
    .addColumn('check_text', 'text', (c) => c.notNull())
    .addColumn('weight', 'double precision', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('outcome_details')
    .addColumn('outcome_id', 'text', (c) =>
      c.primaryKey().references(idOf('outcomes')).onDelete('cascade'),
    )
    .addColumn('cause_key', 'text')
    .addColumn('part', 'text', (c) => c.notNull())
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('gave_away', 'text', (c) => c.notNull())
    .addColumn('changed', 'integer', (c) => c.notNull())
    .addColumn('reading_came_back', 'integer', (c) => c.notNull())
    .addColumn('board_woke', 'integer', (c) => c.notNull())
    .addColumn('sights_json', 'text', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('job_sights')
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('question', 'text', (c) => c.notNull())
    .addColumn('outcome', 'text', (c) => c.notNull())
    .addColumn('seen_at', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('job_sights_key', ['job_id', 'question'])
    .execute();
}
