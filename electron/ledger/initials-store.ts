import type { Db } from './ledger-context.ts';
import { readSetting, writeSetting } from './setting-store.ts';

/** Initials of who works at this bench; '' = nobody said. */
export async function readInitialsOf(db: Db): Promise<string> {
  const kept = await readSetting(db, 'initials');
  return typeof kept === 'string' ? kept : '';
}

export async function writeInitials(db: Db, initials: string): Promise<void> {
  await writeSetting(db, 'initials', initials);
}
