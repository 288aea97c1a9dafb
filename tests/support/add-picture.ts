import { v7 } from 'uuid';
import { PIECE_BYTES } from '../../core/contract/picture-calls.ts';
import type { Picture, PictureFields } from '../../core/pictures/picture.ts';
import type { Ledger } from '../../electron/ledger/ledger-client.ts';

/** What can be told of a picture; say only what a test is about. */
export function pictureFields(fields: Partial<PictureFields> = {}): PictureFields {
  return {
    kind: 'board',
    caption: '',
    takenAt: Date.UTC(2026, 0, 5, 10),
    rail: '',
    partId: null,
    itemId: null,
    huntId: null,
    beforeId: null,
    ...fields,
  };
}

type Handlers = Pick<Ledger['handlers'], 'sendPicturePiece' | 'addPicture'>;

/** Sends a file in pieces, as the window does, and answers the name of the upload. */
export async function upload(handlers: Handlers, bytes: Uint8Array): Promise<string> {
  const name = v7();
  for (let at = 0; at < bytes.length || at === 0; at += PIECE_BYTES) {
    const piece = new Uint8Array(bytes.subarray(at, at + PIECE_BYTES));
    await handlers.sendPicturePiece({ upload: name, at, bytes: piece });
  }
  return name;
}

/** Adds a picture to a job or a board model. */
export async function addPicture(
  handlers: Handlers,
  owner: { jobId: string } | { boardModel: string },
  bytes: Uint8Array,
  o: { fields?: Partial<PictureFields>; small?: Uint8Array; sheet?: Uint8Array } = {},
): Promise<Picture> {
  return handlers.addPicture({
    upload: await upload(handlers, bytes),
    small: o.small === undefined ? null : await upload(handlers, o.small),
    sheet: o.sheet === undefined ? null : await upload(handlers, o.sheet),
    fileName: 'picture.jpg',
    owner,
    fields: pictureFields(o.fields),
  });
}
