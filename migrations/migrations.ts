import type { Migration } from 'kysely/migration';
import * as createLedger from './0001_create_ledger.ts';

/**
 * Every migration in order. Imported by name, not found on disk, so that the bundled app carries
 * them. A shipped one is never edited: a change to the schema is a new, additive file.
 */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001_create_ledger': createLedger,
};
