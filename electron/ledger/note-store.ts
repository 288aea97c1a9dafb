import type { Mark } from '../../core/stages/stage.ts';
import type { Db } from './ledger-context.ts';
import type { RunNoteRow } from './tables.ts';

export async function insertRunNote(db: Db, row: RunNoteRow): Promise<void> {
  await db.insertInto('run_notes').values(row).execute();
}

/** Marks that were put on a run afterwards: people's notes, and guard trips learned of too late. */
export async function notesOfRun(db: Db, runId: string): Promise<readonly Mark[]> {
  const rows = await db
    .selectFrom('run_notes')
    .select(['at_s', 'text', 'mark'])
    .where('run_id', '=', runId)
    .orderBy('at_s')
    .orderBy('id')
    .execute();
  return rows.map((row) => ({ mark: row.mark, atS: row.at_s, text: row.text }));
}
