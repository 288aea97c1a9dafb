import BetterSqlite from 'better-sqlite3';
import { sqliteBinding } from '../../electron/ledger/sqlite-binding.ts';

/** Opens a database file as a bystander would: no ledger code in between. */
export function openBare(file: string, options: BetterSqlite.Options = {}): BetterSqlite.Database {
  const nativeBinding = sqliteBinding();
  return new BetterSqlite(file, {
    ...options,
    ...(nativeBinding === undefined ? {} : { nativeBinding }),
  });
}

/** Every table and index of a file as SQLite wrote it down, one a line, in order of name. */
export function schemaOf(sqlite: BetterSqlite.Database): readonly string[] {
  return sqlite
    .prepare<[], string>(
      "select sql from sqlite_master where sql is not null and name not like 'sqlite_%' order by name",
    )
    .pluck()
    .all();
}
