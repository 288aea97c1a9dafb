import type { Selectable } from 'kysely';
import type { Quantity, Reading } from '../../core/job/job.ts';
import { adoptReading } from '../../core/rails/adopt-reading.ts';
import type { BoardModel } from '../../core/rails/board-model.ts';
import type { GoodReading } from '../../core/rails/learn-known-good.ts';
import type { RailReading } from '../../core/rails/rail-reading.ts';
import { withoutLeads } from '../../core/rails/without-leads.ts';
import type { RailReadingRow } from './board-tables.ts';
import type { Db } from './ledger-context.ts';
import { readingFromRow } from './reading-store.ts';
import { flag, type ReadingRow } from './tables.ts';

/** Readings of a job that stand on its board's rails, and those that stand alone. */
export interface JobRailReadings {
  readonly onRails: readonly RailReading[];
  /** Ids of readings on rails that were marked as from a good board. */
  readonly goodIds: readonly string[];
  readonly alone: readonly Reading[];
}

type Joined = Selectable<ReadingRow> & {
  [K in keyof Omit<RailReadingRow, 'reading_id'>]: RailReadingRow[K] | null;
} & { run_kind: string | null };

function joined(db: Db) {
  return db
    .selectFrom('readings')
    .leftJoin('rail_readings', 'rail_readings.reading_id', 'readings.id')
    .leftJoin('runs', 'runs.id', 'readings.run_id')
    .selectAll('readings')
    .select([
      'rail_readings.rail',
      'rail_readings.point',
      'rail_readings.against',
      'rail_readings.state',
      'rail_readings.powered',
      'rail_readings.wires',
      'rail_readings.lead_ohm',
      'rail_readings.accuracy_percent',
      'rail_readings.accuracy_offset',
      'rail_readings.good',
      'runs.kind as run_kind',
    ]);
}

/** A job's readings sorted onto the rails of its board, in the order they were taken. */
export async function railReadingsOfJob(
  db: Db,
  jobId: string,
  board: BoardModel,
): Promise<JobRailReadings> {
  const rows: Joined[] = await joined(db)
    .where('readings.job_id', '=', jobId)
    .orderBy('readings.taken_at')
    .orderBy('readings.id')
    .execute();
  const onRails: RailReading[] = [];
  const goodIds: string[] = [];
  const alone: Reading[] = [];
  for (const row of rows) {
    const found = railReadingFromRow(row, board);
    if (found === null) alone.push(readingFromRow(row));
    else onRails.push(found);
    if (found !== null && row.good === 1) goodIds.push(row.id);
  }
  return { onRails, goodIds, alone };
}

/** A reading of whichever job as one on a rail of the board; null when it stands on none. */
export async function findRailReading(
  db: Db,
  readingId: string,
  board: BoardModel,
): Promise<RailReading | null> {
  const row = await joined(db).where('readings.id', '=', readingId).executeTakeFirst();
  return row === undefined ? null : railReadingFromRow(row, board);
}

function railReadingFromRow(row: Joined, board: BoardModel): RailReading | null {
  if (row.rail === null) return adoptReading(board, readingFromRow(row), row.run_kind);
  const quantity = row.quantity as Quantity;
  if (quantity !== 'volts' && quantity !== 'ohms' && quantity !== 'diode') return null;
  const has = (name: string) => board.rails.some((rail) => rail.name === name);
  if (!has(row.rail) || (row.against !== null && !has(row.against))) return null;
  return {
    id: row.id,
    rail: row.rail,
    point: row.point as RailReading['point'],
    quantity,
    against: row.against,
    value: row.value,
    overload: row.overload === 1,
    state: row.state,
    powered: row.powered === 1,
    wires: row.wires === 4 ? 4 : 2,
    leadOhm: row.lead_ohm,
    accuracy:
      row.accuracy_percent === null
        ? null
        : { percent: row.accuracy_percent, offset: row.accuracy_offset ?? 0 },
    at: row.taken_at,
  };
}

/** Keeps what a reading on a rail has beside its value; a second writing replaces the first. */
export async function writeRailReading(
  db: Db,
  reading: Omit<RailReading, 'quantity' | 'value' | 'overload' | 'at'>,
  good: boolean,
): Promise<void> {
  const columns = {
    rail: reading.rail,
    point: reading.point,
    against: reading.against,
    state: reading.state,
    powered: flag(reading.powered),
    wires: reading.wires,
    lead_ohm: reading.leadOhm,
    accuracy_percent: reading.accuracy?.percent ?? null,
    accuracy_offset: reading.accuracy?.offset ?? null,
    good: flag(good),
  };
  await db
    .insertInto('rail_readings')
    .values({ reading_id: reading.id, ...columns })
    .onConflict((c) => c.column('reading_id').doUpdateSet(columns))
    .execute();
}

/** Ohms and diode readings that were marked as from good boards of this name. */
export async function goodReadingsOfBoard(
  db: Db,
  key: string | null,
): Promise<readonly GoodReading[]> {
  const rows = await db
    .selectFrom('rail_readings')
    .innerJoin('readings', 'readings.id', 'rail_readings.reading_id')
    .innerJoin('jobs', 'jobs.id', 'readings.job_id')
    .select([
      'rail_readings.rail',
      'rail_readings.wires',
      'rail_readings.lead_ohm',
      'readings.quantity',
      'readings.value',
    ])
    .where('rail_readings.good', '=', 1)
    .where('rail_readings.point', '=', 'output')
    .where('rail_readings.against', 'is', null)
    .where('readings.quantity', 'in', ['ohms', 'diode'])
    .where('readings.value', 'is not', null)
    .where('jobs.board_key', '=', key ?? '')
    .where('jobs.binned_at', 'is', null)
    .execute();
  return rows.map((row) => ({
    rail: row.rail,
    quantity: row.quantity as GoodReading['quantity'],
    value:
      row.quantity === 'ohms'
        ? withoutLeads(row.value ?? 0, { wires: row.wires === 4 ? 4 : 2, leadOhm: row.lead_ohm })
        : (row.value ?? 0),
  }));
}
