import type { Kysely } from 'kysely';

/**
 * How long a step took and how sure its height is, the ripple of a stage and how sure its mean is, and
 * with a classification the set-points that changed during its run. Earlier rows have none of these:
 * null says so, and classifying again adds them.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  await db.schema.alterTable('steps').addColumn('rise_s', 'double precision').execute();
  await db.schema.alterTable('steps').addColumn('plus_minus_a', 'double precision').execute();
  await db.schema.alterTable('stages').addColumn('plus_minus_a', 'double precision').execute();
  await db.schema.alterTable('stages').addColumn('ripple_a', 'double precision').execute();
  await db.schema.alterTable('classifications').addColumn('feed_changes_json', 'text').execute();
}
