import type { Kysely } from 'kysely';

/**
 * What a job had seen when it was closed, and how that was weighed then: later code and later cases
 * change neither. Causes may be retired, which hides them from who closes a job and from nobody else,
 * and the shop's own odds stand beside the starter table. Outcomes from before have the answers that
 * were kept with them, and no row here.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const outcome = 'outcomes.id' as const;

  await db.schema
    .createTable('outcome_findings')
    .addColumn('outcome_id', 'text', (c) => c.notNull().references(outcome).onDelete('cascade'))
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('key', 'text', (c) => c.notNull())
    .addColumn('room', 'text', (c) => c.notNull())
    .addColumn('claim', 'text', (c) => c.notNull())
    .addColumn('value', 'double precision')
    .addColumn('unit', 'text', (c) => c.notNull())
    .addColumn('uncertainty', 'double precision')
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('likelihoods_json', 'text', (c) => c.notNull())
    .addColumn('from_json', 'text', (c) => c.notNull())
    .addColumn('seen_at', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('outcome_findings_key', ['outcome_id', 'seq'])
    .execute();

  await db.schema
    .createTable('outcome_weighings')
    .addColumn('outcome_id', 'text', (c) => c.primaryKey().references(outcome).onDelete('cascade'))
    .addColumn('evidence_version', 'integer', (c) => c.notNull())
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .addColumn('cause_text', 'text', (c) => c.notNull())
    .addColumn('weighed_json', 'text', (c) => c.notNull())
    .execute();

  await db.schema.alterTable('shop_causes').addColumn('retired_at', 'bigint').execute();
  await db.schema.alterTable('shop_causes').addColumn('changed_at', 'bigint').execute();

  await db.schema
    .createTable('shop_odds')
    .addColumn('question', 'text', (c) => c.notNull())
    .addColumn('cause', 'text', (c) => c.notNull())
    .addColumn('odds_json', 'text', (c) => c.notNull())
    .addColumn('changed_at', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('shop_odds_key', ['question', 'cause'])
    .execute();
}
