import { existsSync, statSync } from 'node:fs';
import { dirname } from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { Kysely } from 'kysely';
import type { Migration } from 'kysely/migration';
import { WakelineError } from '../../core/errors.ts';
import { migrations as shipped } from '../../migrations/migrations.ts';
import { migrateLedger } from './migrate-ledger.ts';
import { sqliteBinding } from './sqlite-binding.ts';
import { sqliteError } from './sqlite-trouble.ts';
import type { Tables } from './tables.ts';
import { TransactionalDialect } from './transactional-dialect.ts';

/** "WLGR" in SQLite's application id: tells a ledger from any other database file. */
export const APPLICATION_ID = 0x574c4752;
/** How long a start waits for another program to let go of the file. */
const BUSY_TIMEOUT_MS = 1_500;

export interface OpenDatabase {
  readonly db: Kysely<Tables>;
  readonly sqlite: BetterSqlite.Database;
  /** The copy that was made before the file was brought to this version; null = none was needed. */
  readonly backup: string | null;
}

export interface DatabasePlace {
  readonly path: string;
  readonly nativeBinding?: string | undefined;
  /** Other migrations than the shipped ones; tests break one on purpose. */
  readonly migrations?: Readonly<Record<string, Migration>> | undefined;
}

/**
 * Opens a ledger file, makes a new one where there is none, brings an older one to this version,
 * and holds it so that no second app can. Throws `not-a-ledger`, `ledger-read-only`,
 * `ledger-newer`, `ledger-busy`, `ledger-damaged`, `disk-full` or `migration-failed`; the file is
 * then as it was.
 */
export async function openDatabase(o: DatabasePlace): Promise<OpenDatabase> {
  refuseWhatCannotBeWritten(o.path);
  const sqlite = connect(o);
  const db = new Kysely<Tables>({ dialect: new TransactionalDialect(sqlite) });
  try {
    // Asked for before the first access: the lock then stays with this process until it ends, even
    // by a kill, and no shared memory file is needed.
    sqlite.pragma('locking_mode = EXCLUSIVE');
    // Before anything that writes: a database of something else is left as it is.
    refuseForeignDatabase(sqlite, o.path);
    makeDurable(sqlite);
    const migrations = o.migrations ?? shipped;
    const backup = await migrateLedger({ sqlite, db, path: o.path, migrations });
    return { db, sqlite, backup };
  } catch (thrown) {
    sqlite.close();
    throw sqliteError(thrown, o.path);
  }
}

/** The file's own mark counts even where this user could write anyway. */
function refuseWhatCannotBeWritten(path: string): void {
  if (!existsSync(dirname(path))) {
    throw new WakelineError({
      code: 'ledger-read-only',
      what: 'The folder for the ledger does not exist',
      where: dirname(path),
      todo: 'Make the folder, or choose another place for the ledger.',
    });
  }
  const found = statSync(path, { throwIfNoEntry: false });
  if (found === undefined) return;
  if (!found.isFile()) {
    throw new WakelineError({
      code: 'not-a-ledger',
      what: 'The ledger path is not a file',
      where: path,
      todo: 'Choose a file name for the ledger.',
    });
  }
  if ((found.mode & 0o222) === 0) {
    throw new WakelineError({
      code: 'ledger-read-only',
      what: 'The ledger file is marked read-only',
      where: path,
      todo: 'Remove the read-only mark from the file, then start again. Nothing in it was changed.',
    });
  }
}

function connect(o: DatabasePlace): BetterSqlite.Database {
  const nativeBinding = sqliteBinding(o.nativeBinding);
  try {
    return new BetterSqlite(o.path, {
      timeout: BUSY_TIMEOUT_MS,
      ...(nativeBinding === undefined ? {} : { nativeBinding }),
    });
  } catch (thrown) {
    throw sqliteError(thrown, o.path);
  }
}

function makeDurable(sqlite: BetterSqlite.Database): void {
  const isNew = sqlite.pragma('page_count', { simple: true }) === 0;
  if (isNew) sqlite.pragma('auto_vacuum = INCREMENTAL');
  sqlite.pragma('journal_mode = WAL');
  // FULL: a commit that was answered survives a power cut; NORMAL may lose the newest ones.
  sqlite.pragma('synchronous = FULL');
  sqlite.pragma('foreign_keys = ON');
  sqlite.pragma('journal_size_limit = 4194304');
  const mark = isNew ? `pragma application_id = ${APPLICATION_ID};` : '';
  sqlite.exec(`begin immediate; ${mark} commit`);
}

function refuseForeignDatabase(sqlite: BetterSqlite.Database, path: string): void {
  const owner = sqlite.pragma('application_id', { simple: true });
  if (owner === APPLICATION_ID) return;
  const tables = sqlite.prepare('select count(*) from sqlite_master').pluck().get();
  if (owner !== 0 || tables !== 0) {
    throw new WakelineError({
      code: 'not-a-ledger',
      what: 'The file is a database, but not a ledger of this app',
      where: path,
      todo: 'Choose the right file, or move this one away and a new ledger is made. It was not touched.',
    });
  }
}
