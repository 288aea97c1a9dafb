import BetterSqlite from 'better-sqlite3';
import { sqliteBinding } from '../sqlite-binding.ts';

/** Opens a copy of a ledger as a plain database: no migration, no lock that stays. */
export function openCopy(file: string, options: BetterSqlite.Options = {}): BetterSqlite.Database {
  const nativeBinding = sqliteBinding();
  return new BetterSqlite(file, {
    ...options,
    ...(nativeBinding === undefined ? {} : { nativeBinding }),
  });
}
