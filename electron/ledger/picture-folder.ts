import { createHash } from 'node:crypto';
import { mkdir, open, readdir, readFile, unlink } from 'node:fs/promises';
import path from 'node:path';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import type { PictureType } from '../../core/pictures/picture.ts';
import { writeWholeFile } from '../record/write-whole-file.ts';

const ENDINGS: Readonly<Record<PictureType, string>> = {
  'image/jpeg': 'jpg',
  'image/png': 'png',
  'image/webp': 'webp',
};
/** Nothing else in the folder is ours to delete. */
const OURS = /^([0-9a-f]{64})\.(jpg|png|webp)$/;
const HALF_WRITTEN = /^\.[0-9a-f]{50,64}.*\.part$/;

/** Where the pictures of a ledger lie: a folder beside its file, named after it. */
export function pictureFolderOf(ledgerPath: string): string {
  const { dir, name } = path.parse(ledgerPath);
  return path.join(dir, `${name}-pictures`);
}

/** SHA-256 as lower-case hex (FIPS 180-4). */
export const hashOf = (bytes: Uint8Array): string =>
  createHash('sha256').update(bytes).digest('hex');

/** Where a file lies below the folder: by the first two digits of its hash, 256 folders at most. */
export const pictureFileName = (hash: string, type: PictureType): string =>
  path.join(hash.slice(0, 2), `${hash}.${ENDINGS[type]}`);

/** Files of pictures on disk, named by what is in them. */
export class PictureFolder {
  readonly folder: string;

  constructor(ledgerPath: string) {
    this.folder = pictureFolderOf(ledgerPath);
  }

  /**
   * Puts bytes onto the disk, whole and flushed, and answers their hash. Bytes that are there
   * already are left alone; a file that was damaged meanwhile is put right. Throws
   * `file-not-written`.
   */
  async put(bytes: Uint8Array, type: PictureType): Promise<string> {
    const hash = hashOf(bytes);
    const file = path.join(this.folder, pictureFileName(hash, type));
    const there = await readFile(file).catch(() => null);
    if (there !== null && hashOf(there) === hash) return hash;
    const shard = path.dirname(file);
    try {
      await mkdir(shard, { recursive: true });
      await writeWholeFile(file, bytes);
    } catch (cause) {
      throw notKept(shard, cause);
    }
    await flushFolder(shard);
    return hash;
  }

  /** Reads a file and holds it against its name. Throws `picture-lost`. */
  async read(hash: string, type: PictureType): Promise<Uint8Array<ArrayBuffer>> {
    const file = path.join(this.folder, pictureFileName(hash, type));
    // A copy of its own: what `readFile` answers may be a view of a shared pool.
    const bytes = await readFile(file).then(
      (read) => new Uint8Array(read),
      (cause: unknown) => {
        throw lost(file, isAbsent(cause) ? 'is missing' : `cannot be read (${String(cause)})`);
      },
    );
    if (hashOf(bytes) !== hash) throw lost(file, 'was changed outside the app');
    return bytes;
  }

  /** Deletes our files that `kept` does not name, and what a crash left half-written. */
  async sweep(kept: ReadonlySet<string>): Promise<void> {
    for (const shard of await readdir(this.folder).catch(() => [])) {
      if (!/^[0-9a-f]{2}$/.test(shard)) continue;
      const inside = path.join(this.folder, shard);
      for (const name of await readdir(inside).catch(() => [])) {
        const hash = OURS.exec(name)?.[1];
        const goes = hash === undefined ? HALF_WRITTEN.test(name) : !kept.has(hash);
        // A file that will not go is tried again when the bin is emptied next.
        if (goes) await unlink(path.join(inside, name)).catch(() => {});
      }
    }
  }
}

/** The name of a new file is on the disk only once its folder is. Windows cannot and need not. */
async function flushFolder(folder: string): Promise<void> {
  const handle = await open(folder, 'r').catch(() => null);
  await handle?.sync().catch(() => {});
  await handle?.close();
}

const isAbsent = (cause: unknown) =>
  cause instanceof Error && 'code' in cause && cause.code === 'ENOENT';

function notKept(where: string, cause: unknown): WakelineError {
  return new WakelineError(
    {
      code: 'file-not-written',
      what: `The picture could not be kept: ${troubleOf(cause, where).what}`,
      where,
      todo: 'Make room or let the app write there, and add the picture again. Nothing was kept of it.',
    },
    { cause },
  );
}

function lost(file: string, how: string): WakelineError {
  return new WakelineError({
    code: 'picture-lost',
    what: `The file of this picture ${how}`,
    where: file,
    todo: 'Put the file back from a backup, or add the same picture again. Its marks are kept.',
  });
}
