import type { Selectable } from 'kysely';
import { boardKey } from '../../core/job/same-thing.ts';
import type { Picture, PictureFields, PictureMark } from '../../core/pictures/picture.ts';
import type { Db } from './ledger-context.ts';
import type { PictureFileRow, PictureMarkRow, PictureRow } from './picture-tables.ts';

type Row = Selectable<PictureRow> & Omit<Selectable<PictureFileRow>, 'hash'>;

function markOfRow(row: Selectable<PictureMarkRow>): PictureMark {
  return {
    id: row.id,
    kind: row.kind as PictureMark['kind'],
    name: row.name,
    x: row.x,
    y: row.y,
    temperatureC: row.temperature_c,
  };
}

function pictureOfRow(row: Row, marks: readonly PictureMark[]): Picture {
  return {
    id: row.id,
    jobId: row.job_id,
    boardModel: row.board_model,
    kind: row.kind as Picture['kind'],
    caption: row.caption,
    takenAt: row.taken_at,
    rail: row.rail,
    partId: row.part_id,
    itemId: row.item_id,
    huntId: row.hunt_id,
    beforeId: row.before_id,
    addedAt: row.added_at,
    binnedAt: row.binned_at,
    hash: row.hash,
    type: row.type as Picture['type'],
    bytes: row.bytes,
    width: row.width,
    height: row.height,
    marks,
  };
}

const fieldColumns = (fields: PictureFields) => ({
  kind: fields.kind,
  caption: fields.caption,
  taken_at: fields.takenAt,
  rail: fields.rail,
  part_id: fields.partId,
  item_id: fields.itemId,
  hunt_id: fields.huntId,
  before_id: fields.beforeId,
});

const pictures = (db: Db) =>
  db
    .selectFrom('pictures')
    .innerJoin('picture_files', 'picture_files.hash', 'pictures.hash')
    .selectAll('pictures')
    .select(['type', 'bytes', 'width', 'height'])
    .orderBy('taken_at')
    .orderBy('pictures.id');

async function withMarks(db: Db, rows: readonly Row[]): Promise<readonly Picture[]> {
  if (rows.length === 0) return [];
  const marks = await db
    .selectFrom('picture_marks')
    .selectAll()
    .where(
      'picture_id',
      'in',
      rows.map((row) => row.id),
    )
    .orderBy('position')
    .execute();
  return rows.map((row) =>
    pictureOfRow(row, marks.filter((mark) => mark.picture_id === row.id).map(markOfRow)),
  );
}

/** A job's pictures that are not in the bin, by the time they were taken. */
export async function picturesOfJob(db: Db, jobId: string): Promise<readonly Picture[]> {
  const rows = await pictures(db)
    .where('job_id', '=', jobId)
    .where('binned_at', 'is', null)
    .execute();
  return withMarks(db, rows);
}

export async function picturesOfBoard(db: Db, boardModel: string): Promise<readonly Picture[]> {
  const rows = await pictures(db)
    .where('board_key', '=', boardKey(boardModel))
    .where('binned_at', 'is', null)
    .execute();
  return withMarks(db, rows);
}

/** Pictures in the bin, with the number of their job. */
export async function binnedPictures(db: Db) {
  const rows = await pictures(db)
    .leftJoin('jobs', 'jobs.id', 'pictures.job_id')
    .where('pictures.binned_at', 'is not', null)
    .select('jobs.number as job_number')
    .execute();
  const found = await withMarks(db, rows);
  return found.map((picture, i) => ({ picture, jobNumber: rows[i]!.job_number }));
}

export async function findPicture(db: Db, id: string): Promise<Picture | undefined> {
  const rows = await pictures(db).where('pictures.id', '=', id).execute();
  return (await withMarks(db, rows))[0];
}

/** The picture of this owner with exactly these bytes, in the bin or not. */
export async function findSamePicture(
  db: Db,
  owner: Pick<Picture, 'jobId' | 'boardModel'>,
  hash: string,
): Promise<Picture | undefined> {
  const all = pictures(db).where('pictures.hash', '=', hash);
  const rows = await (owner.jobId === null
    ? all.where('board_key', '=', boardKey(owner.boardModel))
    : all.where('job_id', '=', owner.jobId)
  ).execute();
  return (await withMarks(db, rows))[0];
}

export async function insertPicture(
  db: Db,
  o: {
    readonly id: string;
    readonly owner: Pick<Picture, 'jobId' | 'boardModel'>;
    readonly fields: PictureFields;
    readonly addedAt: number;
    readonly files: Readonly<Record<'full' | 'small' | 'sheet', PictureFileRow | null>>;
  },
): Promise<void> {
  const { full, small, sheet } = o.files;
  for (const file of [full, small, sheet]) {
    if (file === null) continue;
    await db
      .insertInto('picture_files')
      .values(file)
      .onConflict((c) => c.doNothing())
      .execute();
  }
  await db
    .insertInto('pictures')
    .values({
      id: o.id,
      job_id: o.owner.jobId,
      board_model: o.owner.boardModel,
      board_key: boardKey(o.owner.boardModel),
      ...fieldColumns(o.fields),
      added_at: o.addedAt,
      binned_at: null,
      hash: full!.hash,
      small_hash: small?.hash ?? null,
      sheet_hash: sheet?.hash ?? null,
    })
    .execute();
}

export async function updatePicture(db: Db, id: string, fields: PictureFields): Promise<void> {
  await db.updateTable('pictures').set(fieldColumns(fields)).where('id', '=', id).execute();
}

export async function setPictureBinned(db: Db, id: string, at: number | null): Promise<void> {
  await db.updateTable('pictures').set({ binned_at: at }).where('id', '=', id).execute();
}

export async function writeMarks(
  db: Db,
  pictureId: string,
  marks: readonly PictureMark[],
): Promise<void> {
  await db.deleteFrom('picture_marks').where('picture_id', '=', pictureId).execute();
  if (marks.length === 0) return;
  await db
    .insertInto('picture_marks')
    .values(
      marks.map((mark, position) => ({
        id: mark.id,
        picture_id: pictureId,
        position,
        kind: mark.kind,
        name: mark.name,
        x: mark.x,
        y: mark.y,
        temperature_c: mark.temperatureC,
      })),
    )
    .execute();
}
