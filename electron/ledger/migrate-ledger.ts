import { existsSync, renameSync, rmSync } from 'node:fs';
import type BetterSqlite from 'better-sqlite3';
import type { Kysely } from 'kysely';
import { type Migration, Migrator } from 'kysely/migration';
import { WakelineError } from '../../core/errors.ts';
import { sqliteTrouble } from './sqlite-trouble.ts';
import type { Tables } from './tables.ts';

type Migrations = Readonly<Record<string, Migration>>;

/** Names of the migrations that the file has been through, oldest first; none for a new file. */
export function appliedMigrations(sqlite: BetterSqlite.Database): readonly string[] {
  const known = sqlite
    .prepare("select 1 from sqlite_master where type = 'table' and name = 'kysely_migration'")
    .get();
  if (known === undefined) return [];
  return sqlite
    .prepare<[], string>('select name from kysely_migration order by name')
    .pluck()
    .all();
}

/** Puts a whole copy of the file beside it; an older copy of the same step gives way. */
function backUp(sqlite: BetterSqlite.Database, path: string, before: string): string {
  const backup = `${path}.before-${before}.backup`;
  const growing = `${backup}.part`;
  rmSync(growing, { force: true });
  sqlite.prepare('vacuum into ?').run(growing);
  if (existsSync(backup)) rmSync(backup);
  renameSync(growing, backup);
  return backup;
}

/**
 * Brings a ledger to the newest schema; returns the backup's path when one was made. Throws
 * `ledger-newer` for a file of a later app, `disk-full` and `migration-failed`; the file then
 * holds exactly what it held before.
 */
export async function migrateLedger(o: {
  sqlite: BetterSqlite.Database;
  db: Kysely<Tables>;
  path: string;
  migrations: Migrations;
}): Promise<string | null> {
  const names = Object.keys(o.migrations).sort();
  const applied = appliedMigrations(o.sqlite);
  const unknown = applied.filter((name) => !names.includes(name));
  if (unknown.length > 0) {
    throw new WakelineError({
      code: 'ledger-newer',
      what: 'This ledger was written by a newer version of the app',
      where: o.path,
      todo: 'Install the newest version and open it with that. The file was not changed.',
    });
  }
  const pending = names.filter((name) => !applied.includes(name));
  const next = pending[0];
  if (next === undefined) return null;
  try {
    const backup = applied.length > 0 ? backUp(o.sqlite, o.path, next) : null;
    const migrator = new Migrator({
      db: o.db,
      provider: { getMigrations: async () => ({ ...o.migrations }) },
    });
    const { error } = await migrator.migrateToLatest();
    if (error !== undefined) throw error;
    return backup;
  } catch (thrown) {
    const trouble = sqliteTrouble(thrown, o.path);
    if (trouble.code !== 'internal') throw new WakelineError(trouble, { cause: thrown });
    throw new WakelineError(
      {
        code: 'migration-failed',
        what: `The ledger could not be brought to this version: ${trouble.what}`,
        where: `${o.path}, step ${next}`,
        todo: 'Nothing in it was changed. Start again; if it fails again, keep using the version before.',
      },
      { cause: thrown },
    );
  }
}
