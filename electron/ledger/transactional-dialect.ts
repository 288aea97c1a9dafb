import type BetterSqlite from 'better-sqlite3';
import {
  type DatabaseConnection,
  type DialectAdapter,
  type Driver,
  SqliteAdapter,
  SqliteDialect,
  SqliteDriver,
} from 'kysely';

/**
 * The stock dialect says that DDL is not transactional, so a migration that fails half-way would
 * leave its tables behind and every retry would die with "already exists".
 */
class TransactionalAdapter extends SqliteAdapter {
  override get supportsTransactionalDdl(): boolean {
    return true;
  }
}

/** SQLite ends a transaction by itself on a full disk; a second rollback would hide the cause. */
class ForgivingDriver extends SqliteDriver {
  readonly #sqlite: BetterSqlite.Database;

  constructor(sqlite: BetterSqlite.Database) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }

  override async rollbackTransaction(connection: DatabaseConnection): Promise<void> {
    if (this.#sqlite.inTransaction) await super.rollbackTransaction(connection);
  }
}

/** SQLite over better-sqlite3 with migrations that roll back whole. */
export class TransactionalDialect extends SqliteDialect {
  readonly #sqlite: BetterSqlite.Database;

  constructor(sqlite: BetterSqlite.Database) {
    super({ database: sqlite });
    this.#sqlite = sqlite;
  }

  override createAdapter(): DialectAdapter {
    return new TransactionalAdapter();
  }

  override createDriver(): Driver {
    return new ForgivingDriver(this.#sqlite);
  }
}
