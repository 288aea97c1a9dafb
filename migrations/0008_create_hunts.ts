import type { Kysely } from 'kysely';

/**
 * Hunts for a short along a rail: the points that were touched, the millivolts read there with the
 * current that flowed at that moment (0 = none), what was concluded, and which runs were current put
 * into the board. Those runs have a kind of their own in `runs`, so that nothing learns from them.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('hunts')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('reference', 'text', (c) => c.notNull())
    .addColumn('lead_ohm', 'double precision')
    .addColumn('lead_from', 'text', (c) => c.notNull())
    .addColumn('meter_sigma_v', 'double precision')
    .addColumn('most_a', 'double precision')
    .addColumn('ratings_json', 'text', (c) => c.notNull())
    .addColumn('began_at', 'bigint', (c) => c.notNull())
    .addColumn('concluded_at', 'bigint')
    .addColumn('finding_json', 'text')
    .execute();
  await db.schema.createIndex('hunts_job').on('hunts').column('job_id').execute();

  await db.schema
    .createTable('hunt_points')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('hunt_id', 'text', (c) => c.notNull().references(idOf('hunts')).onDelete('cascade'))
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('along_mm', 'double precision')
    .addColumn('photo_id', 'text')
    .addColumn('photo_x', 'double precision')
    .addColumn('photo_y', 'double precision')
    .execute();
  await db.schema
    .createIndex('hunt_points_hunt')
    .on('hunt_points')
    .columns(['hunt_id', 'position'])
    .execute();

  await db.schema
    .createTable('hunt_readings')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('point_id', 'text', (c) =>
      c.notNull().references(idOf('hunt_points')).onDelete('cascade'),
    )
    .addColumn('volts', 'double precision', (c) => c.notNull())
    .addColumn('decimals', 'integer')
    .addColumn('amps', 'double precision', (c) => c.notNull())
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('taken_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema
    .createIndex('hunt_readings_point')
    .on('hunt_readings')
    .column('point_id')
    .execute();

  await db.schema
    .createTable('hunt_runs')
    .addColumn('run_id', 'text', (c) => c.primaryKey().references(idOf('runs')).onDelete('cascade'))
    .addColumn('hunt_id', 'text', (c) => c.notNull().references(idOf('hunts')).onDelete('cascade'))
    .execute();
  await db.schema.createIndex('hunt_runs_hunt').on('hunt_runs').column('hunt_id').execute();
}
