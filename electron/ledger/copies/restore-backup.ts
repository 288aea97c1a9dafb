import { existsSync } from 'node:fs';
import { copyFile, open, readFile, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import { WakelineError } from '../../../core/errors.ts';
import { pictureFolderOf } from '../picture-folder.ts';
import { type BackupNote, LEDGER_FILE, NOTE_FILE } from './backup-folder.ts';
import { checkCopy } from './check-copy.ts';
import { copyTrouble } from './copy-trouble.ts';
import { copyPictures } from './picture-copies.ts';

export interface Restored {
  readonly path: string;
  readonly jobs: number;
  readonly pictures: number;
  readonly picturesLost: number;
}

/**
 * Writes a backup out as a ledger file at `target`, which must not be there, with its pictures beside
 * it; read back against the backup's own hash and counts before it takes its name. Throws
 * `bad-backup`, `file-not-written`, `disk-full`.
 */
export async function restoreBackup(o: {
  /** The backup's own folder. */
  readonly backup: string;
  readonly target: string;
  /** The ledger that the file is for: where its pictures go. */
  readonly ledgerPath: string;
}): Promise<Restored> {
  if (existsSync(o.target)) {
    throw new WakelineError({
      code: 'file-not-written',
      what: 'There is a file of this name already',
      where: o.target,
      todo: 'Choose another name: a ledger that is there is never written over.',
    });
  }
  const note = await readNote(o.backup);
  const growing = `${o.target}.part`;
  try {
    await copyFile(path.join(o.backup, LEDGER_FILE), growing);
    const handle = await open(growing, 'r+');
    await handle.sync().finally(() => handle.close());
    await checkCopy({ file: growing, counts: note.counts, sha256: note.sha256 });
    const pictures = await copyPictures({
      from: path.join(path.dirname(o.backup), 'pictures'),
      to: pictureFolderOf(o.ledgerPath),
      names: note.pictures,
    });
    await rename(growing, o.target);
    return {
      path: o.target,
      jobs: note.counts.jobs ?? 0,
      pictures: pictures.length,
      picturesLost: note.pictures.length - pictures.length + note.picturesLost,
    };
  } catch (thrown) {
    await rm(growing, { force: true }).catch(() => {});
    throw copyTrouble(thrown, path.dirname(o.target));
  }
}

async function readNote(backup: string): Promise<BackupNote> {
  try {
    return JSON.parse(await readFile(path.join(backup, NOTE_FILE), 'utf8')) as BackupNote;
  } catch (cause) {
    throw new WakelineError(
      {
        code: 'bad-backup',
        what: 'The backup has no note of what is in it: it was never finished',
        where: backup,
        todo: 'Choose another backup.',
      },
      { cause },
    );
  }
}
