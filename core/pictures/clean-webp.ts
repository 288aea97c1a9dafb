import type { CleanPicture } from './clean-picture.ts';
import { joinBytes, lettersAt } from './join-bytes.ts';
import { badPicture, checkPixels, cutShort } from './picture-limits.ts';
import { NO_EXIF } from './read-exif.ts';

const KEPT = new Set(['VP8 ', 'VP8L', 'VP8X', 'ALPH', 'ICCP']);
const HEADER = 12;
const ANIMATED = 0x02;
/** Flags of the notes that are left behind (Exif and XMP; RFC 9649, 2.7). */
const NOTES = 0x08 | 0x04;

/** A still WebP with only what draws it (RFC 9649). Throws `bad-picture`. */
export function cleanWebp(bytes: Uint8Array, where: string): CleanPicture {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const total = HEADER - 4 + view.getUint32(4, true);
  if (total > bytes.length) throw cutShort(where);
  const kept: Uint8Array[] = [];
  let size: { width: number; height: number } | null = null;
  let hasData = false;
  for (let at = HEADER; at < total; ) {
    if (at + 8 > total) throw cutShort(where);
    const length = view.getUint32(at + 4, true);
    const end = at + 8 + length + (length % 2);
    if (end > total) throw cutShort(where);
    const name = lettersAt(bytes, at, 4);
    // A copy: its flags are changed below, and the bytes are somebody else's.
    const chunk = new Uint8Array(bytes.subarray(at, end));
    if (name === 'VP8X') {
      if (length < 10) throw cutShort(where);
      if ((chunk[8]! & ANIMATED) !== 0) {
        throw badPicture(where, 'This WebP moves', 'Save one picture of it.');
      }
      chunk[8] = chunk[8]! & ~NOTES;
    }
    size ??= sizeOf(name, chunk);
    hasData ||= name === 'VP8 ' || name === 'VP8L';
    if (KEPT.has(name)) kept.push(chunk);
    at = end;
  }
  if (size === null || !hasData) throw cutShort(where);
  checkPixels(where, size.width, size.height);
  const body = joinBytes(kept);
  const header = new Uint8Array(bytes.subarray(0, HEADER));
  new DataView(header.buffer).setUint32(4, body.length + 4, true);
  return { type: 'image/webp', bytes: joinBytes([header, body]), ...size, exif: NO_EXIF };
}

/** Width and height as the first chunk that knows them tells (RFC 9649 2.7.1; RFC 6386 9.1). */
function sizeOf(name: string, chunk: Uint8Array): { width: number; height: number } | null {
  if (chunk.length < 18) return null;
  const view = new DataView(chunk.buffer);
  const three = (at: number) => view.getUint16(at, true) | (view.getUint8(at + 2) << 16);
  switch (name) {
    case 'VP8X':
      return { width: 1 + three(12), height: 1 + three(15) };
    case 'VP8L': {
      const packed = view.getUint32(9, true);
      return { width: 1 + (packed & 0x3fff), height: 1 + ((packed >>> 14) & 0x3fff) };
    }
    case 'VP8 ':
      return {
        width: view.getUint16(14, true) & 0x3fff,
        height: view.getUint16(16, true) & 0x3fff,
      };
    default:
      return null;
  }
}
