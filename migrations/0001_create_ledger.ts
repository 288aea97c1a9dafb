import type { Kysely } from 'kysely';

/**
 * The first ledger: jobs with what hangs on them, runs with their tracks and chunks, and every
 * classification of a run. Times of day are UTC milliseconds, times in a run are ticks of 0.1 ms,
 * yes/no is 1/0 and quantities are in base SI units, so that PostgreSQL can hold the same rows.
 */
export async function up(db: Kysely<unknown>): Promise<void> {
  const idOf = (table: string) => `${table}.id` as const;

  await db.schema
    .createTable('settings')
    .addColumn('key', 'text', (c) => c.primaryKey())
    .addColumn('value_json', 'text', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('jobs')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('number', 'integer', (c) => c.notNull().unique())
    .addColumn('board_model', 'text')
    .addColumn('board_key', 'text')
    .addColumn('serial_number', 'text', (c) => c.notNull())
    .addColumn('serial_key', 'text', (c) => c.notNull())
    .addColumn('customer', 'text', (c) => c.notNull())
    .addColumn('symptom', 'text', (c) => c.notNull())
    .addColumn('liquid', 'text', (c) => c.notNull())
    .addColumn('matters', 'text', (c) => c.notNull())
    .addColumn('earlier_repairs', 'text', (c) => c.notNull())
    .addColumn('accessories', 'text', (c) => c.notNull())
    .addColumn('promised', 'text', (c) => c.notNull())
    .addColumn('stated_input_v', 'double precision')
    .addColumn('stated_limit_a', 'double precision')
    .addColumn('running_a', 'double precision')
    .addColumn('runs_flat', 'integer')
    .addColumn('template', 'text', (c) => c.notNull())
    .addColumn('state', 'text', (c) => c.notNull())
    .addColumn('comeback_of', 'text', (c) => c.references(idOf('jobs')).onDelete('set null'))
    .addColumn('created_at', 'bigint', (c) => c.notNull())
    .addColumn('updated_at', 'bigint', (c) => c.notNull())
    .addColumn('binned_at', 'bigint')
    .addColumn('search_text', 'text', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('jobs_serial').on('jobs').column('serial_key').execute();
  await db.schema.createIndex('jobs_board').on('jobs').column('board_key').execute();

  await db.schema
    .createTable('outcomes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('verdict', 'text', (c) => c.notNull())
    .addColumn('cause', 'text', (c) => c.notNull())
    .addColumn('proved_by', 'text', (c) => c.notNull())
    .addColumn('misled_by', 'text', (c) => c.notNull())
    .addColumn('closed_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('outcomes_job').on('outcomes').column('job_id').execute();

  await db.schema
    .createTable('checklist_items')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('position', 'integer', (c) => c.notNull())
    .addColumn('step', 'text', (c) => c.notNull())
    .addColumn('phase', 'text', (c) => c.notNull())
    .addColumn('title', 'text', (c) => c.notNull())
    .addColumn('needs', 'text', (c) => c.notNull())
    .addColumn('quantity', 'text')
    .addColumn('place', 'text', (c) => c.notNull())
    .addColumn('caution', 'text')
    .addColumn('before_power', 'integer', (c) => c.notNull())
    .addColumn('state', 'text', (c) => c.notNull())
    .addColumn('at', 'bigint')
    .addColumn('reason', 'text', (c) => c.notNull())
    .execute();
  await db.schema
    .createIndex('checklist_items_job')
    .on('checklist_items')
    .columns(['job_id', 'position'])
    .execute();

  await db.schema
    .createTable('runs')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.references(idOf('jobs')).onDelete('cascade'))
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('started_at', 'bigint', (c) => c.notNull())
    .addColumn('utc_offset_min', 'integer', (c) => c.notNull())
    .addColumn('ended_at', 'bigint')
    .addColumn('end_reason', 'text')
    .addColumn('feed_point', 'text', (c) => c.notNull())
    .addColumn('feed_cells', 'integer', (c) => c.notNull())
    .addColumn('feed_screen', 'integer', (c) => c.notNull())
    .addColumn('feed_drive', 'integer', (c) => c.notNull())
    .addColumn('feed_note', 'text', (c) => c.notNull())
    .addColumn('set_v', 'double precision')
    .addColumn('limit_a', 'double precision')
    .addColumn('instrument', 'text', (c) => c.notNull())
    .addColumn('pretend', 'integer', (c) => c.notNull())
    .addColumn('role', 'text')
    .addColumn('settings_json', 'text', (c) => c.notNull())
    .addColumn('samples', 'integer', (c) => c.notNull())
    .addColumn('duration_s', 'double precision', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('runs_job').on('runs').columns(['job_id', 'started_at']).execute();
  await db.schema.createIndex('runs_ended').on('runs').column('ended_at').execute();

  await db.schema
    .createTable('tracks')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('run_id', 'text', (c) => c.notNull().references(idOf('runs')).onDelete('cascade'))
    .addColumn('role', 'text', (c) => c.notNull())
    .addColumn('quantity', 'text')
    .execute();
  await db.schema.createIndex('tracks_run').on('tracks').column('run_id').execute();

  await db.schema
    .createTable('chunks')
    .addColumn('track_id', 'text', (c) =>
      c.notNull().references(idOf('tracks')).onDelete('cascade'),
    )
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('from_tick', 'bigint', (c) => c.notNull())
    .addColumn('to_tick', 'bigint', (c) => c.notNull())
    .addColumn('samples', 'integer', (c) => c.notNull())
    .addColumn('waited_ms', 'integer', (c) => c.notNull())
    .addColumn('codec', 'integer', (c) => c.notNull())
    .addColumn('volts_exponent', 'integer')
    .addColumn('amps_exponent', 'integer')
    .addColumn('columns', 'blob', (c) => c.notNull())
    .addPrimaryKeyConstraint('chunks_key', ['track_id', 'seq'])
    .execute();

  await db.schema
    .createTable('pyramids')
    .addColumn('track_id', 'text', (c) =>
      c.primaryKey().references(idOf('tracks')).onDelete('cascade'),
    )
    .addColumn('samples', 'integer', (c) => c.notNull())
    .addColumn('nodes', 'blob', (c) => c.notNull())
    .execute();

  await db.schema
    .createTable('classifications')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('run_id', 'text', (c) => c.notNull().references(idOf('runs')).onDelete('cascade'))
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .addColumn('tracker_version', 'integer', (c) => c.notNull())
    .addColumn('settings_json', 'text', (c) => c.notNull())
    .addColumn('samples', 'integer', (c) => c.notNull())
    .addColumn('duration_s', 'double precision', (c) => c.notNull())
    .addColumn('reach_stage', 'text', (c) => c.notNull())
    .addColumn('reach_held_a', 'double precision')
    .addColumn('reach_held_w', 'double precision')
    .addColumn('reach_share', 'double precision')
    .addColumn('energy_wh', 'double precision')
    .addColumn('charge_ah', 'double precision')
    .addColumn('peak_a', 'double precision')
    .execute();
  await db.schema
    .createIndex('classifications_run')
    .on('classifications')
    .columns(['run_id', 'id'])
    .execute();

  await db.schema
    .createTable('stages')
    .addColumn('classification_id', 'text', (c) =>
      c.notNull().references(idOf('classifications')).onDelete('cascade'),
    )
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('stage', 'text', (c) => c.notNull())
    .addColumn('start_s', 'double precision', (c) => c.notNull())
    .addColumn('end_s', 'double precision', (c) => c.notNull())
    .addColumn('mean_a', 'double precision')
    .addColumn('mean_v', 'double precision')
    .addColumn('confidence', 'double precision', (c) => c.notNull())
    .addColumn('reason', 'text', (c) => c.notNull())
    .addColumn('period_s', 'double precision')
    .addColumn('final', 'integer', (c) => c.notNull())
    .addPrimaryKeyConstraint('stages_key', ['classification_id', 'seq'])
    .execute();

  await db.schema
    .createTable('marks')
    .addColumn('classification_id', 'text', (c) =>
      c.notNull().references(idOf('classifications')).onDelete('cascade'),
    )
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('mark', 'text', (c) => c.notNull())
    .addColumn('at_s', 'double precision', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addPrimaryKeyConstraint('marks_key', ['classification_id', 'seq'])
    .execute();

  await db.schema
    .createTable('steps')
    .addColumn('classification_id', 'text', (c) =>
      c.notNull().references(idOf('classifications')).onDelete('cascade'),
    )
    .addColumn('seq', 'integer', (c) => c.notNull())
    .addColumn('at_s', 'double precision', (c) => c.notNull())
    .addColumn('from_a', 'double precision', (c) => c.notNull())
    .addColumn('to_a', 'double precision', (c) => c.notNull())
    .addPrimaryKeyConstraint('steps_key', ['classification_id', 'seq'])
    .execute();

  await db.schema
    .createTable('run_notes')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('run_id', 'text', (c) => c.notNull().references(idOf('runs')).onDelete('cascade'))
    .addColumn('at_s', 'double precision', (c) => c.notNull())
    .addColumn('text', 'text', (c) => c.notNull())
    .addColumn('made_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('run_notes_run').on('run_notes').column('run_id').execute();

  await db.schema
    .createTable('readings')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.references(idOf('jobs')).onDelete('cascade'))
    .addColumn('item_id', 'text', (c) => c.references(idOf('checklist_items')).onDelete('set null'))
    .addColumn('run_id', 'text', (c) => c.references(idOf('runs')).onDelete('set null'))
    .addColumn('quantity', 'text', (c) => c.notNull())
    .addColumn('value', 'double precision')
    .addColumn('overload', 'integer', (c) => c.notNull())
    .addColumn('decimals', 'integer')
    .addColumn('place', 'text', (c) => c.notNull())
    .addColumn('expected_low', 'double precision')
    .addColumn('expected_high', 'double precision')
    .addColumn('source', 'text', (c) => c.notNull())
    .addColumn('taken_at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('readings_job').on('readings').column('job_id').execute();
  await db.schema.createIndex('readings_item').on('readings').column('item_id').execute();
  await db.schema.createIndex('readings_run').on('readings').column('run_id').execute();

  await db.schema
    .createTable('parts')
    .addColumn('id', 'text', (c) => c.primaryKey())
    .addColumn('job_id', 'text', (c) => c.notNull().references(idOf('jobs')).onDelete('cascade'))
    .addColumn('action', 'text', (c) => c.notNull())
    .addColumn('designator', 'text', (c) => c.notNull())
    .addColumn('kind', 'text', (c) => c.notNull())
    .addColumn('value', 'text', (c) => c.notNull())
    .addColumn('rail', 'text', (c) => c.notNull())
    .addColumn('state_found', 'text', (c) => c.notNull())
    .addColumn('came_from', 'text', (c) => c.notNull())
    .addColumn('at', 'bigint', (c) => c.notNull())
    .execute();
  await db.schema.createIndex('parts_job').on('parts').column('job_id').execute();
}
