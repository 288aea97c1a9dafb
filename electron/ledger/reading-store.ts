import type { Insertable, Selectable } from 'kysely';
import type { Quantity, Reading } from '../../core/job/job.ts';
import type { Db } from './ledger-context.ts';
import { flag, type ReadingRow } from './tables.ts';

/** A reading from its row. */
export function readingFromRow(row: Selectable<ReadingRow>): Reading {
  return {
    id: row.id,
    jobId: row.job_id,
    itemId: row.item_id,
    runId: row.run_id,
    quantity: row.quantity as Quantity,
    value: row.value,
    overload: row.overload === 1,
    decimals: row.decimals,
    place: row.place,
    expectedLow: row.expected_low,
    expectedHigh: row.expected_high,
    source: row.source as Reading['source'],
    takenAt: row.taken_at,
  };
}

/** Readings of a job, or those of no job, in the order they were taken. */
export async function readingsOfJob(db: Db, jobId: string | null): Promise<readonly Reading[]> {
  const rows = await db
    .selectFrom('readings')
    .selectAll()
    .where('job_id', jobId === null ? 'is' : '=', jobId)
    .orderBy('taken_at')
    .orderBy('id')
    .execute();
  return rows.map(readingFromRow);
}

export async function findReading(db: Db, id: string): Promise<Reading | undefined> {
  const row = await db.selectFrom('readings').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? undefined : readingFromRow(row);
}

export async function insertReading(db: Db, reading: Reading): Promise<void> {
  await db
    .insertInto('readings')
    .values({
      id: reading.id,
      job_id: reading.jobId,
      item_id: reading.itemId,
      run_id: reading.runId,
      quantity: reading.quantity,
      value: reading.value,
      overload: flag(reading.overload),
      decimals: reading.decimals,
      place: reading.place,
      expected_low: reading.expectedLow,
      expected_high: reading.expectedHigh,
      source: reading.source,
      taken_at: reading.takenAt,
    })
    .execute();
}

export async function updateReading(
  db: Db,
  id: string,
  columns: Partial<Insertable<ReadingRow>>,
): Promise<void> {
  await db.updateTable('readings').set(columns).where('id', '=', id).execute();
}

export async function deleteReading(db: Db, id: string): Promise<void> {
  await db.deleteFrom('readings').where('id', '=', id).execute();
}
