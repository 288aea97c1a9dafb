import { WakelineError } from '../../core/errors.ts';
import { joinBytes } from '../../core/pictures/join-bytes.ts';
import { badPicture, MOST_BYTES } from '../../core/pictures/picture-limits.ts';

/** Files under way at once: one being added, with its two smaller copies, and the next. */
const MOST_UPLOADS = 6;

/** Files that come in pieces. What nobody asks for makes room for what comes after it. */
export class PictureUploads {
  readonly #under = new Map<string, { pieces: Uint8Array[]; bytes: number }>();

  /** Takes the next piece. Throws `bad-input` for a gap and `bad-picture` when it grows too large. */
  take(upload: string, at: number, bytes: Uint8Array): void {
    const file = this.#under.get(upload) ?? { pieces: [], bytes: 0 };
    if (at !== file.bytes) throw outOfTurn(upload);
    if (file.bytes + bytes.length > MOST_BYTES) {
      this.#under.delete(upload);
      throw badPicture(
        upload,
        `The file has more than ${MOST_BYTES / 1024 / 1024} MB`,
        'Save it smaller and add it again.',
      );
    }
    file.pieces.push(bytes);
    file.bytes += bytes.length;
    this.#under.delete(upload);
    this.#under.set(upload, file);
    if (this.#under.size > MOST_UPLOADS) this.#under.delete(this.#under.keys().next().value!);
  }

  /** Hands a file over and forgets it. Throws `bad-input` when it never came. */
  claim(upload: string): Uint8Array<ArrayBuffer> {
    const file = this.#under.get(upload);
    this.#under.delete(upload);
    if (file === undefined) throw outOfTurn(upload);
    return joinBytes(file.pieces);
  }
}

function outOfTurn(upload: string): WakelineError {
  return new WakelineError({
    code: 'bad-input',
    what: 'The pieces of the file did not come in order',
    where: `upload ${upload}`,
    todo: 'Add the picture again. Nothing was kept of it.',
  });
}
