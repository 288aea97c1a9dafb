import type { PictureSize } from '../../core/pictures/picture.ts';
import type { Db } from './ledger-context.ts';
import type { PictureFileRow } from './picture-tables.ts';

/** The file of a picture in a size, or the next larger one that was made; undefined = no picture. */
export async function fileOfPicture(
  db: Db,
  id: string,
  size: PictureSize,
): Promise<PictureFileRow | undefined> {
  const row = await db
    .selectFrom('pictures')
    .select(['hash', 'small_hash', 'sheet_hash'])
    .where('id', '=', id)
    .executeTakeFirst();
  if (row === undefined) return undefined;
  const sheet = row.sheet_hash ?? row.hash;
  const hash = { full: row.hash, sheet, small: row.small_hash ?? sheet }[size];
  return db.selectFrom('picture_files').selectAll().where('hash', '=', hash).executeTakeFirst();
}

/** Deletes what lies in the bin for good. Answers how many pictures went. */
export async function deleteBinnedPictures(db: Db): Promise<number> {
  const gone = await db
    .deleteFrom('pictures')
    .where('binned_at', 'is not', null)
    .returning('id')
    .execute();
  return gone.length;
}

/** Forgets files that no picture names any more; answers the hashes of those that stay. */
export async function forgetUnusedFiles(db: Db): Promise<ReadonlySet<string>> {
  const used = db
    .selectFrom('pictures')
    .select('hash')
    .union(
      db
        .selectFrom('pictures')
        .select('small_hash as hash')
        .where('small_hash', 'is not', null)
        .$castTo<{ hash: string }>(),
    )
    .union(
      db
        .selectFrom('pictures')
        .select('sheet_hash as hash')
        .where('sheet_hash', 'is not', null)
        .$castTo<{ hash: string }>(),
    );
  await db.deleteFrom('picture_files').where('hash', 'not in', used).execute();
  const rows = await db.selectFrom('picture_files').select('hash').execute();
  return new Set(rows.map(({ hash }) => hash));
}
