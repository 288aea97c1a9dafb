import { existsSync } from 'node:fs';
import { mkdir, readdir, readFile, rm, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { z } from 'zod';
import { backupsToDrop, isBackupName } from '../../../core/copies/backup-plan.ts';
import { WakelineError } from '../../../core/errors.ts';
import { copyTrouble } from './copy-trouble.ts';

/** Says that a folder was chosen for backups: an empty mount point has no such file. */
const MARK = 'wakeline-backups.txt';
const MARK_TEXT =
  'Backups of a Wakeline ledger lie in this folder. This file tells the app that it is the folder\nthat was chosen, and not the empty place where a drive is missing.\n';
export const LEDGER_FILE = 'ledger.sqlite';
export const NOTE_FILE = 'backup.json';

const note = z.object({
  ledgerId: z.string(),
  madeAt: z.number(),
  app: z.string(),
  schema: z.string(),
  bytes: z.number(),
  sha256: z.string(),
  counts: z.record(z.string(), z.number()),
  pictures: z.array(z.object({ file: z.string(), sha256: z.string(), bytes: z.number() })),
  /** Pictures that the ledger names and that were missing or damaged where they should lie. */
  picturesLost: z.number(),
});

/** What a backup says of itself. */
export type BackupNote = z.infer<typeof note>;

export interface FoundBackup {
  readonly name: string;
  readonly note: BackupNote;
}

/** Makes a folder the one that backups go to. Throws `folder-missing`, `file-not-written`, `disk-full`. */
export async function markBackupFolder(folder: string): Promise<void> {
  try {
    await mkdir(folder, { recursive: true });
    await writeFile(path.join(folder, MARK), MARK_TEXT);
  } catch (thrown) {
    throw copyTrouble(thrown, folder);
  }
}

/** Throws `folder-missing` where the folder, or the drive that it lies on, is not there. */
export function refuseMissingFolder(folder: string): void {
  const isThere = existsSync(folder);
  if (isThere && existsSync(path.join(folder, MARK))) return;
  throw new WakelineError({
    code: 'folder-missing',
    what: isThere
      ? 'This is not the folder that was chosen for backups: its mark is not in it'
      : 'The folder for backups is not there',
    where: folder,
    todo: 'Plug the drive in, or choose the folder again. Nothing was written.',
  });
}

/** The finished backups of a folder, oldest first; one without its note is not finished. */
export async function findBackups(folder: string): Promise<readonly FoundBackup[]> {
  const names = (await readdir(folder).catch(() => [])).filter(isBackupName).sort();
  const found = await Promise.all(names.map((name) => readNote(path.join(folder, name), name)));
  return found.filter((one) => one !== null);
}

async function readNote(folder: string, name: string): Promise<FoundBackup | null> {
  try {
    const text = await readFile(path.join(folder, NOTE_FILE), 'utf8');
    const read = note.safeParse(JSON.parse(text));
    return read.success ? { name, note: read.data } : null;
  } catch {
    return null;
  }
}

/**
 * Deletes this ledger's backups but the newest `keep`, what a death left half-written, and pictures
 * that no backup in the folder names any more. Another ledger's backups stay.
 */
export async function dropOldBackups(
  folder: string,
  ledgerId: string,
  keep: number,
): Promise<readonly string[]> {
  const all = await findBackups(folder);
  const own = all.filter((one) => one.note.ledgerId === ledgerId);
  const gone = backupsToDrop(
    own.map(({ name }) => name),
    keep,
  );
  for (const name of gone) await rm(path.join(folder, name), { recursive: true, force: true });
  await dropHalves(folder);
  const staying = all.filter(({ name }) => !gone.includes(name));
  await dropPictures(
    path.join(folder, 'pictures'),
    new Set(staying.flatMap((one) => one.note.pictures.map(({ file }) => file))),
  );
  return gone;
}

/** Folders that a killed backup left: their names begin with a dot and end in `.part`. */
export async function dropHalves(folder: string): Promise<void> {
  for (const name of await readdir(folder).catch(() => [])) {
    if (!/^\.wakeline-backup-.*\.part$/.test(name)) continue;
    await rm(path.join(folder, name), { recursive: true, force: true }).catch(() => {});
  }
}

async function dropPictures(folder: string, kept: ReadonlySet<string>): Promise<void> {
  for (const shard of await readdir(folder).catch(() => [])) {
    if (!/^[0-9a-f]{2}$/.test(shard)) continue;
    for (const name of await readdir(path.join(folder, shard)).catch(() => [])) {
      const isOurs = /^[0-9a-f]{64}\.\w+$/.test(name) && !kept.has(`${shard}/${name}`);
      if (isOurs) await rm(path.join(folder, shard, name), { force: true });
    }
  }
}
