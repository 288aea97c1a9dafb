import type { Kysely } from 'kysely';

/**
 * A signature of each run's curve, for finding earlier runs like a new one. They only repeat what
 * the chunks hold: runs from before are given theirs the first time that somebody asks. A run
 * without draw has a row without a shape, so that it is not read again and again.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .createTable('signatures')
    .addColumn('run_id', 'text', (c) => c.primaryKey().references('runs.id').onDelete('cascade'))
    .addColumn('version', 'integer', (c) => c.notNull())
    .addColumn('quantity', 'text')
    .addColumn('known', 'integer', (c) => c.notNull())
    .addColumn('base', 'double precision', (c) => c.notNull())
    .addColumn('shape', 'blob')
    .execute();
}
