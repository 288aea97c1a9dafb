import { z } from 'zod';
import { PICTURE_KINDS, type Picture } from '../pictures/picture.ts';
import { answers } from './call.ts';
import { id, line, note } from './fields.ts';

/** Bytes of one piece of a file: small, so that main never stops to copy a large one. */
export const PIECE_BYTES = 256 * 1024;

const share = z.number().finite().min(0).max(1);

export const pictureFields = z.object({
  kind: z.enum(PICTURE_KINDS),
  caption: note,
  takenAt: z.number().int().min(0),
  rail: line,
  partId: id.nullable(),
  itemId: id.nullable(),
  huntId: id.nullable(),
  beforeId: id.nullable(),
});

export const pictureMark = z.object({
  id,
  kind: z.enum(['hot-spot', 'point']),
  name: line,
  x: share,
  y: share,
  temperatureC: z.number().finite().min(-80).max(1000).nullable(),
});

/** A picture that is in the bin while its job is not. */
export interface BinnedPicture {
  readonly picture: Picture;
  /** Null for a board model's picture. */
  readonly jobNumber: number | null;
}

/** Calls about pictures: answered by the ledger worker. */
export const pictureCalls = {
  /** A job's pictures, oldest first, without those in the bin. */
  listPictures: answers<readonly Picture[]>()(z.object({ jobId: id })),
  listBoardPictures: answers<readonly Picture[]>()(z.object({ boardModel: line.min(1) })),
  listBinnedPictures: answers<readonly BinnedPicture[]>()(z.object({})),
  /** A file comes in pieces in order; `upload` is a name of the sender's own for it. */
  sendPicturePiece: answers<null>()(
    z.object({
      upload: id,
      at: z.number().int().min(0),
      bytes: z.instanceof(Uint8Array).refine((bytes) => bytes.length <= PIECE_BYTES, {
        message: `a piece has at most ${PIECE_BYTES} bytes`,
      }),
    }),
  ),
  /**
   * Keeps the uploaded file as a picture, cleaned of everything but the picture. The same bytes
   * in the same job stay one picture. Refuses with `bad-picture`.
   */
  addPicture: answers<Picture>()(
    z.object({
      upload: id,
      /** The same picture smaller: for thumbnails, and for the window and paper; null = none made. */
      small: id.nullable(),
      sheet: id.nullable(),
      fileName: line,
      owner: z.union([z.object({ jobId: id }), z.object({ boardModel: line.min(1) })]),
      /** `takenAt` is asked only where the camera did not write it down. */
      fields: pictureFields,
    }),
  ),
  changePicture: answers<Picture>()(z.object({ id, fields: pictureFields })),
  /** All marks of a picture, in order. */
  saveMarks: answers<Picture>()(z.object({ id, marks: z.array(pictureMark).max(100) })),
  /** Its file stays until the bin is emptied. */
  binPicture: answers<null>()(z.object({ id })),
  restorePicture: answers<Picture>()(z.object({ id })),
  /** Reads the file back against its hash; refuses with `picture-lost`. */
  readPictureState: answers<null>()(z.object({ id })),
} as const;
