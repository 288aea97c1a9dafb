import type { Selectable } from 'kysely';
import type { Db } from './ledger-context.ts';
import type { TrackRow } from './tables.ts';

export async function insertTrack(db: Db, row: TrackRow): Promise<void> {
  await db.insertInto('tracks').values(row).execute();
}

/** The tracks of a run, in the order they began. */
export function tracksOfRun(db: Db, runId: string): Promise<Selectable<TrackRow>[]> {
  return db.selectFrom('tracks').selectAll().where('run_id', '=', runId).orderBy('id').execute();
}

/** The supply's track of a run; undefined before its first sample. */
export function supplyTrack(db: Db, runId: string): Promise<Selectable<TrackRow> | undefined> {
  return db
    .selectFrom('tracks')
    .selectAll()
    .where('run_id', '=', runId)
    .where('role', '=', 'supply')
    .executeTakeFirst();
}
