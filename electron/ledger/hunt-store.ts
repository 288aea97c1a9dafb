import type { Selectable } from 'kysely';
import type { Finding } from '../../core/finding/finding.ts';
import type { Hunt, HuntPoint, HuntReading, PartRating } from '../../core/shorts/hunt.ts';
import type { HuntPointRow, HuntReadingRow, HuntRow } from './hunt-tables.ts';
import type { Db } from './ledger-context.ts';

/** Hunts of a job with their points, readings and runs, oldest first. */
export async function huntsOfJob(db: Db, jobId: string): Promise<readonly Hunt[]> {
  const rows = await db
    .selectFrom('hunts')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('id')
    .execute();
  return wholeHunts(db, rows);
}

export async function findHunt(db: Db, id: string): Promise<Hunt | null> {
  const row = await db.selectFrom('hunts').selectAll().where('id', '=', id).executeTakeFirst();
  return row === undefined ? null : ((await wholeHunts(db, [row]))[0] ?? null);
}

/** The hunt that a point belongs to; null when there is no such point. */
export async function huntIdOfPoint(db: Db, pointId: string): Promise<string | null> {
  const row = await db
    .selectFrom('hunt_points')
    .select('hunt_id')
    .where('id', '=', pointId)
    .executeTakeFirst();
  return row?.hunt_id ?? null;
}

/** The point that a reading was taken at; null when there is no such reading. */
export async function pointOfHuntReading(db: Db, readingId: string): Promise<string | null> {
  const row = await db
    .selectFrom('hunt_readings')
    .select('point_id')
    .where('id', '=', readingId)
    .executeTakeFirst();
  return row?.point_id ?? null;
}

async function wholeHunts(db: Db, rows: readonly Selectable<HuntRow>[]): Promise<readonly Hunt[]> {
  if (rows.length === 0) return [];
  const ids = rows.map(({ id }) => id);
  const points = await db
    .selectFrom('hunt_points')
    .selectAll()
    .where('hunt_id', 'in', ids)
    .orderBy('position')
    .orderBy('id')
    .execute();
  const readings = await db
    .selectFrom('hunt_readings')
    .innerJoin('hunt_points', 'hunt_points.id', 'hunt_readings.point_id')
    .selectAll('hunt_readings')
    .where('hunt_points.hunt_id', 'in', ids)
    .orderBy('hunt_readings.taken_at')
    .orderBy('hunt_readings.id')
    .execute();
  const runs = await db
    .selectFrom('hunt_runs')
    .select(['hunt_id', 'run_id'])
    .where('hunt_id', 'in', ids)
    .orderBy('run_id')
    .execute();
  return rows.map((row) => ({
    id: row.id,
    jobId: row.job_id,
    rail: row.rail,
    reference: row.reference,
    leadOhm: row.lead_ohm,
    leadFrom: row.lead_from as Hunt['leadFrom'],
    meterSigmaV: row.meter_sigma_v,
    mostA: row.most_a,
    ratings: JSON.parse(row.ratings_json) as readonly PartRating[],
    beganAt: row.began_at,
    points: points
      .filter(({ hunt_id }) => hunt_id === row.id)
      .map((point) =>
        pointFromRow(
          point,
          readings.filter(({ point_id }) => point_id === point.id),
        ),
      ),
    runIds: runs.filter(({ hunt_id }) => hunt_id === row.id).map(({ run_id }) => run_id),
    finding: row.finding_json === null ? null : (JSON.parse(row.finding_json) as Finding),
    concludedAt: row.concluded_at,
  }));
}

function pointFromRow(
  row: Selectable<HuntPointRow>,
  readings: readonly Selectable<HuntReadingRow>[],
): HuntPoint {
  const { photo_id, photo_x, photo_y } = row;
  return {
    id: row.id,
    name: row.name,
    alongMm: row.along_mm,
    onPicture:
      photo_id === null || photo_x === null || photo_y === null
        ? null
        : { pictureId: photo_id, x: photo_x, y: photo_y },
    readings: readings.map(
      (reading): HuntReading => ({
        id: reading.id,
        volts: reading.volts,
        decimals: reading.decimals,
        amps: reading.amps,
        source: reading.source as HuntReading['source'],
        takenAt: reading.taken_at,
      }),
    ),
  };
}
