import type { Insertable, Selectable } from 'kysely';
import type { Job, JobFields, Outcome } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';
import { newestOutcome } from './outcome-store.ts';
import { flag, type JobRow } from './tables.ts';

/** The columns behind a job's own fields. */
export function jobColumns(
  fields: {
    readonly [K in keyof JobFields]?: JobFields[K] | undefined;
  },
): Partial<Insertable<JobRow>> {
  const board = fields.board;
  const columns: { [K in keyof JobRow]?: JobRow[K] | undefined } = {
    board_model: fields.boardModel,
    serial_number: fields.serialNumber,
    customer: fields.customer,
    symptom: fields.symptom,
    liquid: fields.liquid,
    matters: fields.matters,
    earlier_repairs: fields.earlierRepairs,
    accessories: fields.accessories,
    promised: fields.promised,
    stated_input_v: board?.statedInputV,
    stated_limit_a: board?.statedLimitA,
    running_a: board?.runningA,
    runs_flat: board && (board.runsFlat === null ? null : flag(board.runsFlat)),
    template: fields.template,
  };
  return Object.fromEntries(
    Object.entries(columns).filter(([, value]) => value !== undefined),
  ) as Partial<Insertable<JobRow>>;
}

/** A job's own fields from its row. */
export function jobFromRow(
  row: Selectable<JobRow>,
  comebackOf: Job['comebackOf'],
  outcome: Outcome | null,
): Job {
  return {
    id: row.id,
    number: row.number,
    boardModel: row.board_model,
    serialNumber: row.serial_number,
    customer: row.customer,
    symptom: row.symptom,
    liquid: row.liquid as Job['liquid'],
    matters: row.matters as Job['matters'],
    earlierRepairs: row.earlier_repairs,
    accessories: row.accessories,
    promised: row.promised,
    board: {
      statedInputV: row.stated_input_v,
      statedLimitA: row.stated_limit_a,
      runningA: row.running_a,
      runsFlat: row.runs_flat === null ? null : row.runs_flat === 1,
    },
    template: row.template,
    state: row.state as Job['state'],
    createdAt: row.created_at,
    updatedAt: row.updated_at,
    comebackOf,
    outcome,
  };
}

/** A job as its row, in the bin or not; undefined when there is none. */
export function findJobRow(db: Db, id: string): Promise<Selectable<JobRow> | undefined> {
  return db.selectFrom('jobs').selectAll().where('id', '=', id).executeTakeFirst();
}

/** The job of a row with its comeback link and, once closed, its newest outcome. */
export async function jobOfRow(db: Db, row: Selectable<JobRow>): Promise<Job> {
  const earlier =
    row.comeback_of === null
      ? undefined
      : await db
          .selectFrom('jobs')
          .select(['id', 'number'])
          .where('id', '=', row.comeback_of)
          .executeTakeFirst();
  const outcome = row.state === 'closed' ? await newestOutcome(db, row.id) : null;
  return jobFromRow(row, earlier ?? null, outcome);
}

export async function insertJobRow(db: Db, row: Insertable<JobRow>): Promise<void> {
  await db.insertInto('jobs').values(row).execute();
}

export async function updateJobRow(
  db: Db,
  id: string,
  columns: Partial<Insertable<JobRow>>,
): Promise<void> {
  await db.updateTable('jobs').set(columns).where('id', '=', id).execute();
}
