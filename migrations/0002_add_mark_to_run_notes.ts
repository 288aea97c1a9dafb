import type { Kysely } from 'kysely';

/**
 * What kind of mark was put on a run after it had ended: a person's note, or a guard's trip that
 * was only learned of at the next start, because the app died with it.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema
    .alterTable('run_notes')
    .addColumn('mark', 'text', (c) => c.notNull().defaultTo('note'))
    .execute();
}
