import type { Handlers } from '../../core/contract/contract.ts';
import type { pictureCalls } from '../../core/contract/picture-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { cleanPicture } from '../../core/pictures/clean-picture.ts';
import type { Picture, PictureFields, PictureSize } from '../../core/pictures/picture.ts';
import type { ExifFacts } from '../../core/pictures/read-exif.ts';
import { changeJobWith } from './change-job.ts';
import { findItemRow } from './item-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { findPart } from './part-store.ts';
import { settlePhotoItems } from './photo-items.ts';
import { fileOfPicture, forgetUnusedFiles } from './picture-file-store.ts';
import type { PictureFolder } from './picture-folder.ts';
import {
  binnedPictures,
  findPicture,
  findSamePicture,
  insertPicture,
  picturesOfBoard,
  picturesOfJob,
  setPictureBinned,
  updatePicture,
  writeMarks,
} from './picture-store.ts';
import type { PictureFileRow } from './picture-tables.ts';
import { PictureUploads } from './picture-uploads.ts';

const DAY_MS = 86_400_000;

type Owner = Pick<Picture, 'jobId' | 'boardModel'>;

/** A file of a picture as it goes to who draws it. */
export interface OpenedPicture {
  readonly type: string;
  readonly bytes: Uint8Array<ArrayBuffer>;
}

export interface PictureHandlers extends Handlers<typeof pictureCalls> {
  /** The bytes of a picture in a size. Throws `not-found` and `picture-lost`. */
  openPicture(o: { id: string; size: PictureSize }): Promise<OpenedPicture>;
  /** Deletes files that nothing names any more; asked when the bin was emptied. */
  sweepPictures(): Promise<void>;
}

/** The window's calls about pictures. */
export function createPictureHandlers(
  context: LedgerContext,
  folder: PictureFolder,
): PictureHandlers {
  const { db, newId, now } = context;
  const uploads = new PictureUploads();
  // A file is written before its row: a sweep in between would take it away again.
  let turn: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(act: () => Promise<T>): Promise<T> => {
    const mine = turn.then(act, act);
    turn = mine.catch(() => {});
    return mine;
  };

  const pictureOf = async (id: string, within: Db = db): Promise<Picture> => {
    const picture = await findPicture(within, id);
    if (picture === undefined) throw missing('picture', id);
    return picture;
  };

  /** Changes a picture with the job that it hangs on, or by itself. */
  const change = async (id: string, act: (db: Db) => Promise<void>): Promise<Picture> => {
    const { jobId } = await pictureOf(id);
    const both = async (trx: Db) => {
      await act(trx);
      if (jobId !== null) await settlePhotoItems(trx, jobId, now());
      return pictureOf(id, trx);
    };
    return jobId === null ? db.transaction().execute(both) : changeJobWith(context, jobId, both);
  };

  const keepFile = async (upload: string, name: string) => {
    const clean = cleanPicture(uploads.claim(upload), name);
    const hash = await folder.put(clean.bytes, clean.type);
    const { type, width, height } = clean;
    const row: PictureFileRow = { hash, type, bytes: clean.bytes.length, width, height };
    return { row, exif: clean.exif };
  };

  const checkTies = async (owner: Owner, fields: PictureFields, own: string | null) => {
    const { partId, itemId, beforeId } = fields;
    const others = [
      partId === null ? null : (await findPart(db, partId))?.jobId,
      itemId === null ? null : (await findItemRow(db, itemId))?.job_id,
      beforeId === null ? null : (await findPicture(db, beforeId))?.jobId,
    ];
    const isForeign = others.some((jobId) => jobId !== null && jobId !== owner.jobId);
    if (isForeign || (own !== null && beforeId === own)) throw foreignTie(own);
  };

  const takenAt = (asked: number, exif: ExifFacts): number => {
    if (exif.takenLocalMs === null) return asked;
    const offsetMin = exif.offsetMin ?? -new Date(exif.takenLocalMs).getTimezoneOffset();
    const told = exif.takenLocalMs - offsetMin * 60_000;
    // A camera whose clock was never set says nothing.
    return told > 0 && told < now() + DAY_MS ? told : asked;
  };

  return {
    listPictures: ({ jobId }) => picturesOfJob(db, jobId),
    listBoardPictures: ({ boardModel }) => picturesOfBoard(db, boardModel),
    listBinnedPictures: () => binnedPictures(db),

    sendPicturePiece({ upload, at, bytes }) {
      uploads.take(upload, at, bytes);
      return null;
    },

    addPicture: ({ upload, small, sheet, fileName, owner: asked, fields }) =>
      inTurn(async () => {
        const owner: Owner =
          'jobId' in asked
            ? { jobId: asked.jobId, boardModel: null }
            : { jobId: null, boardModel: asked.boardModel };
        if (owner.jobId !== null && (await findJobRow(db, owner.jobId)) === undefined) {
          throw missing('job', owner.jobId);
        }
        await checkTies(owner, fields, null);
        const full = await keepFile(upload, fileName);
        const files = {
          full: full.row,
          small: small === null ? null : (await keepFile(small, fileName)).row,
          sheet: sheet === null ? null : (await keepFile(sheet, fileName)).row,
        };
        const same = await findSamePicture(db, owner, full.row.hash);
        if (same !== undefined)
          return change(same.id, (trx) => setPictureBinned(trx, same.id, null));
        const id = newId();
        const told = { ...fields, takenAt: takenAt(fields.takenAt, full.exif) };
        const insert = async (trx: Db) => {
          await insertPicture(trx, { id, owner, fields: told, addedAt: now(), files });
          if (owner.jobId !== null) await settlePhotoItems(trx, owner.jobId, now());
          return pictureOf(id, trx);
        };
        return owner.jobId === null
          ? db.transaction().execute(insert)
          : changeJobWith(context, owner.jobId, insert);
      }),

    async changePicture({ id, fields }) {
      await checkTies(await pictureOf(id), fields, id);
      return change(id, (trx) => updatePicture(trx, id, fields));
    },

    saveMarks: ({ id, marks }) => change(id, (trx) => writeMarks(trx, id, marks)),

    async binPicture({ id }) {
      await change(id, (trx) => setPictureBinned(trx, id, now()));
      return null;
    },

    restorePicture: ({ id }) => change(id, (trx) => setPictureBinned(trx, id, null)),

    async readPictureState({ id }) {
      await pictureOf(id);
      for (const size of ['full', 'sheet', 'small'] as const) await open(id, size);
      return null;
    },

    openPicture: ({ id, size }) => open(id, size),
    sweepPictures: () => inTurn(async () => folder.sweep(await forgetUnusedFiles(db))),
  };

  async function open(id: string, size: PictureSize): Promise<OpenedPicture> {
    const file = await fileOfPicture(db, id, size);
    if (file === undefined) throw missing('picture', id);
    return { type: file.type, bytes: await folder.read(file.hash, file.type as Picture['type']) };
  }
}

function foreignTie(own: string | null): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what: 'A picture can only be tied to parts, steps and other pictures of its own job',
    where: own === null ? 'new picture' : `picture ${own}`,
    todo: 'Open the job again and choose one of its own. Nothing was changed.',
  });
}
