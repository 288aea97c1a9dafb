import type { Selectable } from 'kysely';
import type { Part, PartFields } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';
import type { PartRow } from './tables.ts';

const fieldColumns = (part: PartFields) => ({
  action: part.action,
  designator: part.designator,
  kind: part.kind,
  value: part.value,
  rail: part.rail,
  state_found: part.stateFound,
  came_from: part.from,
});

function partFromRow(row: Selectable<PartRow>): Part {
  return {
    id: row.id,
    jobId: row.job_id,
    action: row.action as Part['action'],
    designator: row.designator,
    kind: row.kind,
    value: row.value,
    rail: row.rail,
    stateFound: row.state_found,
    from: row.came_from,
    at: row.at,
  };
}

/** Parts lifted from and fitted to a job's board, in order. */
export async function partsOfJob(db: Db, jobId: string): Promise<readonly Part[]> {
  const rows = await db
    .selectFrom('parts')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('at')
    .orderBy('id')
    .execute();
  return rows.map(partFromRow);
}

export async function findPart(db: Db, id: string): Promise<Part | undefined> {
  const row = await db.selectFrom('parts').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? undefined : partFromRow(row);
}

export async function insertPart(db: Db, part: Part): Promise<void> {
  await db
    .insertInto('parts')
    .values({ id: part.id, job_id: part.jobId, at: part.at, ...fieldColumns(part) })
    .execute();
}

export async function updatePart(db: Db, id: string, part: PartFields): Promise<void> {
  await db.updateTable('parts').set(fieldColumns(part)).where('id', '=', id).execute();
}

export async function deletePart(db: Db, id: string): Promise<void> {
  await db.deleteFrom('parts').where('id', '=', id).execute();
}
