import type { Migration } from 'kysely/migration';
import * as createLedger from './0001_create_ledger.ts';
import * as addMarkToRunNotes from './0002_add_mark_to_run_notes.ts';
import * as createBoards from './0003_create_boards.ts';
import * as createDonorsAndCauses from './0004_create_donors_and_causes.ts';
import * as addSignatures from './0005_add_signatures.ts';
import * as createPictures from './0006_create_pictures.ts';
import * as keepFindingsOfOutcomes from './0007_keep_findings_of_outcomes.ts';
import * as createHunts from './0008_create_hunts.ts';
import * as createCustomersAndSearch from './0009_create_customers_and_search.ts';
import * as versionChecklists from './0010_version_checklists.ts';
import * as keepStepFigures from './0011_keep_step_figures.ts';

/**
 * Every migration in order. Imported by name, not found on disk, so that the bundled app carries
 * them. A shipped one is never edited: a change to the schema is a new, additive file.
 */
export const migrations: Readonly<Record<string, Migration>> = {
  '0001_create_ledger': createLedger,
  '0002_add_mark_to_run_notes': addMarkToRunNotes,
  '0003_create_boards': createBoards,
  '0004_create_donors_and_causes': createDonorsAndCauses,
  '0005_add_signatures': addSignatures,
  '0006_create_pictures': createPictures,
  '0007_keep_findings_of_outcomes': keepFindingsOfOutcomes,
  '0008_create_hunts': createHunts,
  '0009_create_customers_and_search': createCustomersAndSearch,
  '0010_version_checklists': versionChecklists,
  '0011_keep_step_figures': keepStepFigures,
};
