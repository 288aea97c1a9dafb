import { WakelineError } from '../../../core/errors.ts';
import { APPLICATION_ID } from '../open-database.ts';
import type { HashedFile } from './hashed-file.ts';
import { hashFile } from './hashed-file.ts';
import { openCopy } from './open-copy.ts';
import { rowCounts } from './snapshot.ts';

/** What reading a copy back from the disk found. */
export interface CheckedCopy extends HashedFile {
  readonly counts: Readonly<Record<string, number>>;
}

/**
 * Reads a copy of a ledger back: SQLite's own check of every page and index, the rows of each table
 * against those that were counted, and the hash of its bytes. Throws `bad-backup`.
 */
export async function checkCopy(o: {
  readonly file: string;
  readonly counts: Readonly<Record<string, number>> | null;
  readonly sha256: string | null;
}): Promise<CheckedCopy> {
  const hashed = await hashFile(o.file);
  if (o.sha256 !== null && hashed.sha256 !== o.sha256) {
    throw bad(o.file, 'The copy is not what was written: its hash is another');
  }
  const sqlite = openCopy(o.file, { readonly: true });
  try {
    if (sqlite.pragma('application_id', { simple: true }) !== APPLICATION_ID) {
      throw bad(o.file, 'The copy is no ledger');
    }
    const said = sqlite.pragma('integrity_check(1)', { simple: true });
    if (said !== 'ok') throw bad(o.file, `The copy is damaged: ${String(said)}`);
    const counts = rowCounts(sqlite);
    for (const [table, rows] of Object.entries(o.counts ?? {})) {
      if (counts[table] === rows) continue;
      throw bad(o.file, `The copy holds ${counts[table] ?? 0} rows of ${table} instead of ${rows}`);
    }
    return { ...hashed, counts };
  } catch (thrown) {
    if (thrown instanceof WakelineError) throw thrown;
    throw bad(o.file, thrown instanceof Error ? thrown.message : String(thrown));
  } finally {
    sqlite.close();
  }
}

function bad(file: string, what: string): WakelineError {
  return new WakelineError({
    code: 'bad-backup',
    what,
    where: file,
    todo: 'Check the disk it lies on and make another backup. The ledger itself was not touched.',
  });
}
