import { mkdir, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import { backupName } from '../../../core/copies/backup-plan.ts';
import type { Db } from '../ledger-context.ts';
import { appliedMigrations } from '../migrate-ledger.ts';
import { pictureFolderOf } from '../picture-folder.ts';
import {
  type BackupNote,
  dropHalves,
  dropOldBackups,
  LEDGER_FILE,
  NOTE_FILE,
  refuseMissingFolder,
} from './backup-folder.ts';
import { copyTrouble } from './copy-trouble.ts';
import type { Tell } from './export-ledger.ts';
import { writeHashed } from './hashed-file.ts';
import type { RunAside } from './run-aside.ts';
import { snapshotLedger } from './snapshot.ts';

export interface BackupDone {
  readonly name: string;
  readonly folder: string;
  readonly note: BackupNote;
  /** Names of older ones that made room. */
  readonly dropped: readonly string[];
}

/**
 * Backs an open ledger up into a folder while it is being written to: a stepwise copy, its pictures,
 * everything read back from the disk before it counts. Throws `folder-missing`, `disk-full`,
 * `file-not-written`, `bad-backup`, `cancelled`; earlier backups are then as they were.
 */
export async function backUpLedger(o: {
  readonly sqlite: BetterSqlite.Database;
  readonly db: Db;
  readonly ledgerPath: string;
  readonly folder: string;
  readonly keep: number;
  readonly ledgerId: string;
  readonly app: string;
  readonly now: number;
  readonly signal: AbortSignal;
  readonly tell: Tell;
  readonly aside: RunAside;
}): Promise<BackupDone> {
  refuseMissingFolder(o.folder);
  const name = backupName(o.now);
  const growing = path.join(o.folder, `.${name}.part`);
  const file = path.join(growing, LEDGER_FILE);
  try {
    await dropHalves(o.folder);
    await mkdir(growing);
    const { sqlite, db, signal } = o;
    const { counts } = await snapshotLedger({
      sqlite,
      db,
      target: file,
      named: o.folder,
      signal,
      tell: (done, total) => o.tell('copying the ledger', done, total),
    });
    const { checked, pictures, lost } = await o.aside(
      'finish-backup',
      {
        file,
        counts,
        sha256: null,
        from: pictureFolderOf(o.ledgerPath),
        to: path.join(o.folder, 'pictures'),
      },
      signal,
      o.tell,
    );
    const note: BackupNote = {
      ledgerId: o.ledgerId,
      madeAt: o.now,
      app: o.app,
      schema: [...appliedMigrations(sqlite)].pop() ?? '',
      bytes: checked.bytes,
      sha256: checked.sha256,
      counts: { ...checked.counts },
      pictures: [...pictures],
      picturesLost: lost,
    };
    await writeHashed(path.join(growing, NOTE_FILE), [`${JSON.stringify(note, null, 2)}\n`]);
    await rename(growing, path.join(o.folder, name));
    const dropped = await dropOldBackups(o.folder, o.ledgerId, o.keep);
    return { name, folder: path.join(o.folder, name), note, dropped };
  } catch (thrown) {
    await rm(growing, { recursive: true, force: true }).catch(() => {});
    throw copyTrouble(thrown, o.folder);
  }
}
