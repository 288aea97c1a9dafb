import { existsSync, renameSync } from 'node:fs';

/** Where a backup waits that is to be the ledger from the next start on. */
export const waitingLedger = (ledgerPath: string): string => `${ledgerPath}.restored`;

/**
 * Puts a restored ledger in the place of the one that is there, before anything opens it. The old one
 * stays beside it under a name of its own. A start that was killed between the two steps is made up
 * for. Returns where the old one is; null = there was nothing to do.
 */
export function takeRestored(ledgerPath: string, now: number): string | null {
  const waiting = waitingLedger(ledgerPath);
  if (!existsSync(waiting)) return null;
  const stamp = new Date(now).toISOString().slice(0, 19).replaceAll(/[-:T]/g, '');
  const kept = `${ledgerPath}.kept-${stamp}`;
  if (existsSync(ledgerPath)) {
    // What its last app had not folded into the file yet goes along with it.
    for (const end of ['-wal', '-shm', '']) {
      if (existsSync(ledgerPath + end)) renameSync(ledgerPath + end, kept + end);
    }
  }
  renameSync(waiting, ledgerPath);
  return existsSync(kept) ? kept : null;
}
