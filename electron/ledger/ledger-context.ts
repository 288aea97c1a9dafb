import type { Kysely } from 'kysely';
import type { Tables } from './tables.ts';

/** The database, or a transaction on it: stores take either. */
export type Db = Kysely<Tables>;

/** What every handler of the ledger works with. */
export interface LedgerContext {
  readonly db: Db;
  /** UTC ms. */
  readonly now: () => number;
  readonly newId: () => string;
  /** 0 up to but not 1, for codes that must differ and nothing more. */
  readonly random: () => number;
  /** Tells that something of a job was changed and is committed. */
  readonly jobChanged: (jobId: string) => void;
}
