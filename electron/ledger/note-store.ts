import type { Mark } from '../../core/stages/stage.ts';
import type { Db } from './ledger-context.ts';
import type { RunNoteRow } from './tables.ts';

export async function insertRunNote(db: Db, row: RunNoteRow): Promise<void> {
  await db.insertInto('run_notes').values(row).execute();
}

/** Notes that people added to a run afterwards, as marks. */
export async function notesOfRun(db: Db, runId: string): Promise<readonly Mark[]> {
  const rows = await db
    .selectFrom('run_notes')
    .select(['at_s', 'text'])
    .where('run_id', '=', runId)
    .orderBy('at_s')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({ mark: 'note', atS: row.at_s, text: row.text }));
}
