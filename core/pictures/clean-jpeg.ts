import type { CleanPicture } from './clean-picture.ts';
import { joinBytes, lettersAt } from './join-bytes.ts';
import { badPicture, checkPixels, cutShort } from './picture-limits.ts';
import { type ExifFacts, NO_EXIF, readExif } from './read-exif.ts';

/** Markers of ITU-T T.81, table B.1. */
const SOI = new Uint8Array([0xff, 0xd8]);
const EOI = new Uint8Array([0xff, 0xd9]);
const SOS = 0xda;
const COMMENT = 0xfe;
const APP0 = 0xe0;
const APP15 = 0xef;
/** A progressive picture has some ten scans; a trap has thousands, each as dear as a picture. */
const MOST_SCANS = 100;
const JFIF_LENGTH = 18;

/** A JPEG with only what draws it, walked segment by segment to its end. Throws `bad-picture`. */
export function cleanJpeg(bytes: Uint8Array, where: string): CleanPicture {
  const first: Uint8Array[] = [];
  const rest: Uint8Array[] = [];
  let exif: ExifFacts = NO_EXIF;
  let size: { width: number; height: number } | null = null;
  let scans = 0;
  let at = 2;
  for (;;) {
    if (bytes[at] !== 0xff) throw cutShort(where);
    while (bytes[at] === 0xff) at += 1;
    const marker = bytes[at];
    const from = at - 1;
    if (marker === 0xd9) break;
    const length = ((bytes[at + 1] ?? 0) << 8) | (bytes[at + 2] ?? 0);
    const end = at + 1 + length;
    if (marker === undefined || length < 2 || end > bytes.length) throw cutShort(where);
    const segment = bytes.subarray(from, end);
    at = end;
    if (marker === SOS) {
      if (size === null) throw cutShort(where);
      scans += 1;
      if (scans > MOST_SCANS) {
        throw badPicture(where, 'The picture has too many scans', 'Save it again as a plain JPEG.');
      }
      at = endOfScan(bytes, end);
      rest.push(bytes.subarray(from, at));
    } else if (isFrame(marker)) {
      if (size !== null || length < 8) throw cutShort(where);
      size = { height: be16(segment, 5), width: be16(segment, 7) };
      checkPixels(where, size.width, size.height);
      rest.push(segment);
    } else if (marker >= APP0 && marker <= APP15) {
      const name = lettersAt(segment, 4, 12);
      if (marker === APP0 && name.startsWith('JFIF\0')) first.push(withoutThumbnail(segment));
      else if (marker === 0xe1 && name.startsWith('Exif\0\0'))
        exif = readExif(segment.subarray(10));
      else if (marker === 0xe2 && name === 'ICC_PROFILE\0') rest.push(segment);
      else if (marker === 0xee && name.startsWith('Adobe')) rest.push(segment);
    } else if (marker !== COMMENT) rest.push(segment);
  }
  if (size === null || scans === 0) throw cutShort(where);
  const isOnSide = exif.orientation >= 5;
  return {
    type: 'image/jpeg',
    bytes: joinBytes([SOI, ...first, ...turnedBy(exif.orientation), ...rest, EOI]),
    width: isOnSide ? size.height : size.width,
    height: isOnSide ? size.width : size.height,
    exif,
  };
}

const be16 = (bytes: Uint8Array, at: number) => (bytes[at]! << 8) | bytes[at + 1]!;

/** Start of frame: all of C0 to CF but the tables (C4, CC) and the reserved C8. */
function isFrame(marker: number): boolean {
  return marker >= 0xc0 && marker <= 0xcf && ![0xc4, 0xc8, 0xcc].includes(marker);
}

/** Where the coded data of a scan ends: at the first marker that is neither stuffing nor restart. */
function endOfScan(bytes: Uint8Array, from: number): number {
  let at = bytes.indexOf(0xff, from);
  while (at !== -1) {
    const next = bytes[at + 1];
    const isData = next === 0x00 || (next !== undefined && next >= 0xd0 && next <= 0xd7);
    if (!isData && next !== 0xff) return at;
    at = bytes.indexOf(0xff, next === 0xff ? at + 1 : at + 2);
  }
  return bytes.length;
}

/** A JFIF segment may carry a thumbnail: the uncropped picture, sometimes. */
function withoutThumbnail(segment: Uint8Array): Uint8Array {
  const head = new Uint8Array(JFIF_LENGTH);
  head.set(segment.subarray(0, JFIF_LENGTH - 2));
  head.set([0, JFIF_LENGTH - 2], 2);
  return head;
}

/** The one thing of the camera's notes that a viewer needs: a block with the orientation alone. */
function turnedBy(orientation: number): Uint8Array[] {
  if (orientation === 1) return [];
  const words = [0x4d4d, 42, 0, 8, 1, 0x0112, 3, 0, 1, orientation, 0, 0, 0];
  const block = new Uint8Array(10 + words.length * 2);
  block.set([0xff, 0xe1, 0, block.length - 2, 0x45, 0x78, 0x69, 0x66, 0, 0]);
  const view = new DataView(block.buffer);
  for (const [i, word] of words.entries()) view.setUint16(10 + i * 2, word);
  return [block];
}
