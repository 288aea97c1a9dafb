import { cleanJpeg } from './clean-jpeg.ts';
import { cleanPng } from './clean-png.ts';
import { cleanWebp } from './clean-webp.ts';
import type { PictureType } from './picture.ts';
import { badPicture, MOST_BYTES } from './picture-limits.ts';
import type { ExifFacts } from './read-exif.ts';

/** A picture with nothing left in it but the picture. */
export interface CleanPicture {
  readonly type: PictureType;
  readonly bytes: Uint8Array;
  /** Pixels as shown: turned the way it was taken. */
  readonly width: number;
  readonly height: number;
  readonly exif: ExifFacts;
}

const TAKEN_TYPES = 'JPEG, PNG and WebP are taken.';

/** Beginnings of files that people take for pictures, or that a camera makes beside them. */
const OTHERS: readonly (readonly [pattern: RegExp, what: string, todo: string])[] = [
  [/^GIF8/, 'This is a GIF', `${TAKEN_TYPES} Save it as PNG.`],
  [/^BM/, 'This is a bitmap (BMP)', `${TAKEN_TYPES} Save it as PNG.`],
  [/^(II\*\0|MM\0\*)/, 'This is a TIFF or a raw picture', `${TAKEN_TYPES} Save it as JPEG.`],
  [
    /^....ftyp(heic|heix|mif1|msf1|avif)/s,
    'This is a HEIC or AVIF',
    `${TAKEN_TYPES} Save it as JPEG.`,
  ],
  [/^....ftyp/s, 'This is a film, not a picture', 'Take a still from it.'],
  [/^%PDF/, 'This is a PDF, not a picture', 'Save the picture from it.'],
  [/^\s*<(\?xml|svg)/i, 'This is a drawing (SVG), not a picture', 'Save it as PNG.'],
];

/**
 * Checks that bytes are a whole JPEG, PNG or WebP of a size that may be opened, and copies out of
 * it only what draws the picture: places, names, thumbnails, notes and whatever is hung behind it
 * stay behind. No pixel is touched; how it is turned is kept. Throws `bad-picture` naming `where`.
 */
export function cleanPicture(bytes: Uint8Array, where: string): CleanPicture {
  if (bytes.length === 0) throw badPicture(where, 'The file is empty', 'Choose another.');
  if (bytes.length > MOST_BYTES) {
    throw badPicture(
      where,
      `The file has ${Math.ceil(bytes.length / 1024 / 1024)} MB; at most ${MOST_BYTES / 1024 / 1024} MB are taken`,
      'Save it smaller and add it again.',
    );
  }
  const start = String.fromCharCode(...bytes.subarray(0, 16));
  if (start.startsWith('\xff\xd8\xff')) return cleanJpeg(bytes, where);
  if (start.startsWith('\x89PNG\r\n\x1a\n')) return cleanPng(bytes, where);
  if (/^RIFF....WEBP/s.test(start)) return cleanWebp(bytes, where);
  const other = OTHERS.find(([pattern]) => pattern.test(start));
  throw badPicture(
    where,
    other?.[1] ?? 'This is not a picture, whatever its name says',
    other?.[2] ?? `${TAKEN_TYPES} Choose another file.`,
  );
}
