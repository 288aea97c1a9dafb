import { runnable } from './worker-entry.ts';

/** The script of the ledger's threads for long work, as this runtime can start it. */
export const asideEntry = await runnable('electron/ledger/copies/aside-worker.ts');
