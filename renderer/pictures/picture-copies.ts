import { cleanPicture } from '../../core/pictures/clean-picture.ts';
import { SHEET_SIDE, SMALL_SIDE } from '../../core/pictures/picture.ts';
import { badPicture } from '../../core/pictures/picture-limits.ts';

/** A file that is sent whole at most this large for the window and paper: no copy is worth it. */
const LIGHT_BYTES = 600_000;
const QUALITY = 0.85;

/** A picture and the smaller copies of it that are worth keeping. */
export interface PictureCopies {
  readonly full: Uint8Array;
  readonly sheet: Uint8Array | null;
  readonly small: Uint8Array | null;
}

/**
 * Cleans a file, opens it for good (in this sandboxed page, off its thread) and draws it smaller.
 * Throws `bad-picture` when it is no picture, too large, or cannot be opened.
 */
export async function pictureCopies(file: Blob, name: string): Promise<PictureCopies> {
  const { bytes, type, width, height } = cleanPicture(
    new Uint8Array(await file.arrayBuffer()),
    name,
  );
  const clean = new Blob([new Uint8Array(bytes)], { type });
  const longest = Math.max(width, height);
  const draw = (side: number) => drawSmaller(clean, Math.min(1, side / longest), width, height);
  const cannot = () =>
    badPicture(
      name,
      'The picture cannot be opened: it is damaged',
      'Copy it from the camera again.',
    );
  // The small copy is always drawn, and so every picture is opened once before it is kept.
  const small = await draw(SMALL_SIDE).catch(() => {
    throw cannot();
  });
  const isLight = longest <= SHEET_SIDE && bytes.length <= LIGHT_BYTES;
  return {
    full: bytes,
    sheet: isLight ? null : await draw(SHEET_SIDE),
    small: longest <= SMALL_SIDE ? null : small,
  };
}

async function drawSmaller(
  picture: Blob,
  scale: number,
  width: number,
  height: number,
): Promise<Uint8Array> {
  const resizeWidth = Math.max(1, Math.round(width * scale));
  const resizeHeight = Math.max(1, Math.round(height * scale));
  const bitmap = await createImageBitmap(picture, {
    resizeWidth,
    resizeHeight,
    resizeQuality: 'high',
  });
  const canvas = new OffscreenCanvas(resizeWidth, resizeHeight);
  const pen = canvas.getContext('2d');
  if (pen !== null) {
    // JPEG has no see-through: paper is white.
    pen.fillStyle = '#fff';
    pen.fillRect(0, 0, resizeWidth, resizeHeight);
    pen.drawImage(bitmap, 0, 0);
  }
  bitmap.close();
  const drawn = await canvas.convertToBlob({ type: 'image/jpeg', quality: QUALITY });
  return new Uint8Array(await drawn.arrayBuffer());
}
