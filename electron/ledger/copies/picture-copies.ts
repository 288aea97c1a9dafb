import { existsSync } from 'node:fs';
import { copyFile, mkdir, open, rename, rm } from 'node:fs/promises';
import path from 'node:path';
import type BetterSqlite from 'better-sqlite3';
import type { PictureType } from '../../../core/pictures/picture.ts';
import { pictureFileName } from '../picture-folder.ts';
import { hashFile } from './hashed-file.ts';

/** A picture's file by its place below a folder of pictures; it is named by its own hash. */
export interface PictureName {
  readonly file: string;
  readonly sha256: string;
}

export interface CopiedPicture extends PictureName {
  readonly bytes: number;
}

/** The picture files that a ledger names; none for a ledger from before there were pictures. */
export function picturesOf(sqlite: BetterSqlite.Database, schema = 'main'): PictureName[] {
  const has = sqlite
    .prepare(
      `select 1 from ${schema}.sqlite_master where type = 'table' and name = 'picture_files'`,
    )
    .get();
  if (has === undefined) return [];
  return sqlite
    .prepare<[], { hash: string; type: string }>(
      `select hash, type from ${schema}.picture_files order by hash`,
    )
    .all()
    .map(({ hash, type }) => ({
      file: pictureFileName(hash, type as PictureType).replaceAll('\\', '/'),
      sha256: hash,
    }));
}

/**
 * Copies pictures into a folder and reads each back from there. One that is there whole already is
 * left alone; one that is missing or damaged where it comes from is left out.
 */
export async function copyPictures(o: {
  readonly from: string;
  readonly to: string;
  readonly names: readonly PictureName[];
  readonly tell?: (done: number) => void;
}): Promise<CopiedPicture[]> {
  const copied: CopiedPicture[] = [];
  for (const [at, { file, sha256 }] of o.names.entries()) {
    o.tell?.(at);
    const target = path.join(o.to, file);
    const there = existsSync(target) ? await hashFile(target) : null;
    if (there?.sha256 === sha256) {
      copied.push({ file, ...there });
      continue;
    }
    const source = path.join(o.from, file);
    if (!existsSync(source) || (await hashFile(source)).sha256 !== sha256) continue;
    await mkdir(path.dirname(target), { recursive: true });
    const growing = `${target}.part`;
    try {
      await copyFile(source, growing);
      const handle = await open(growing, 'r+');
      await handle.sync().finally(() => handle.close());
      const back = await hashFile(growing);
      if (back.sha256 !== sha256) continue;
      await rename(growing, target);
      copied.push({ file, ...back });
    } finally {
      await rm(growing, { force: true });
    }
  }
  return copied;
}
