import type { Kysely } from 'kysely';

/**
 * Boards by name with their rails and the points where those are touched, and for readings the rail
 * that they were taken on. Jobs name their board in text, as before: a board that nobody has entered
 * is no row here. Lists inside a rail (what feeds and enables it, its states) are JSON arrays of names.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('boards')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('name_key', 'text', (c) => c.notNull().unique())
    .addColumn('stated_input_v', 'double precision')
    .addColumn('stated_limit_a', 'double precision')
    .addColumn('running_a', 'double precision')
    .addColumn('runs_flat', 'integer')
    .addColumn('created_at', 'bigint', (c) => c.notNull())
    .addColumn('updated_at', 'bigint', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('rails')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('board_id', 'text', (c) =>
      c.notNull().references(idOf('boards')).onDelete('cascade'),
    )
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('nominal_v', 'double precision', (c) => c.notNull())
    .addColumn('tolerance', 'double precision', (c) => c.notNull())
    .addColumn('through', 'text', (c) => c.notNull())
    .addColumn('fed_by_json', 'text', (c) => c.notNull())
    .addColumn('enabled_by_json', 'text', (c) => c.notNull())
    .addColumn('states_json', 'text', (c) => c.notNull())
    .addColumn('core', 'integer', (c) => c.notNull())
    .addColumn('ohms_median', 'double precision')
    .addColumn('ohms_spread', 'double precision')
    .addColumn('ohms_count', 'integer')
    .addColumn('diode_median_v', 'double precision')
    .addColumn('diode_spread_v', 'double precision')
    .addColumn('diode_count', 'integer')
    .execute();
  await db.schema
    .createIndex('rails_board')
    .on('rails')
    .columns(['board_id', 'position'])
    .execute();

  await db.schema
    .createTable('rail_points')
    .addColumn('rail_id', 'text', (c) => c.notNull().references(idOf('rails')).onDelete('cascade'))
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('name', 'text', (c) => c.notNull())
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('cost', 'double precision')
    .addColumn('volts', 'double precision')
    .addPrimaryKeyConstraint('rail_points_key', ['rail_id', 'position'])
    .execute();

  await db.schema
    .createTable('rail_readings')
    .addColumn('reading_id', 'text', (c) =>
      c.primaryKey().references(idOf('readings')).onDelete('cascade'),
    )
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('point', 'text', (c) => c.notNull())
    .addColumn('against', 'text')
    .addColumn('state', 'text')
    .addColumn('powered', 'integer', (c) => c.notNull())
    .addColumn('wires', 'integer', (c) => c.notNull())
    .addColumn('lead_ohm', 'double precision')
    .addColumn('accuracy_percent', 'double precision')
    .addColumn('accuracy_offset', 'double precision')
    .addColumn('good', 'integer', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('rail_readings_good').on('rail_readings').column('good').execute();

  await db.schema
    .createTable('unreachable_points')
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('measurement', 'text', (c) => c.notNull())
    .addColumn('said_at', 'bigint', (c) => c.notNull())
    .addPrimaryKeyConstraint('unreachable_points_key', ['job_id', 'measurement'])
    .execute();
}
