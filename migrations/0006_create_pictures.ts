import type { Kysely } from 'kysely';

/**
 * Pictures of a job or of a board model, the marks on them, and the files that they lie in. A file
 * is named by the SHA-256 of its bytes and may serve several pictures; it goes when no row is left
 * that names it.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('picture_files')
    .addColumn('hash', 'text', (c) => c.primaryKey())
    .addColumn('type', 'text', (c) => c.notNull())
    .addColumn('bytes', 'integer', (c) => c.notNull())
    .addColumn('width', 'integer', (c) => c.notNull())
    .addColumn('height', 'integer', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('pictures')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.references(idOf('jobs')).onDelete('cascade'))
    .addColumn('board_model', 'text')
    .addColumn('board_key', 'text')
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('caption', 'text', (c) => c.notNull())
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('part_id', 'text', (c) => c.references(idOf('parts')).onDelete('set null'))
    .addColumn('item_id', 'text', (c) => c.references(idOf('checklist_items')).onDelete('set null'))
    .addColumn('hunt_id', 'text')
    .addColumn('before_id', 'text', (c) => c.references(idOf('pictures')).onDelete('set null'))
    .addColumn('taken_at', 'bigint', (c) => c.notNull())
    .addColumn('added_at', 'bigint', (c) => c.notNull())
    .addColumn('binned_at', 'bigint')
    .addColumn('hash', 'text', (c) => c.notNull().references('picture_files.hash'))
    .addColumn('small_hash', 'text', (c) => c.references('picture_files.hash'))
    .addColumn('sheet_hash', 'text', (c) => c.references('picture_files.hash'))
    .execute();
  await db.schema.createIndex('pictures_job').on('pictures').column('job_id').execute();
  await db.schema.createIndex('pictures_board').on('pictures').column('board_key').execute();

  await db.schema
    .createTable('picture_marks')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('picture_id', 'text', (c) =>
      c.notNull().references(idOf('pictures')).onDelete('cascade'),
    )
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('x', 'double precision', (c) => c.notNull())
    .addColumn('y', 'double precision', (c) => c.notNull())
    .addColumn('temperature_c', 'double precision')
    .execute();
  await db.schema
    .createIndex('picture_marks_of')
    .on('picture_marks')
    .column('picture_id')
    .execute();
}
