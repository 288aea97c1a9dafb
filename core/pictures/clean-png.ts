import crc32 from 'crc-32';
import type { CleanPicture } from './clean-picture.ts';
import { joinBytes, lettersAt } from './join-bytes.ts';
import { checkPixels, cutShort } from './picture-limits.ts';
import { NO_EXIF } from './read-exif.ts';

/** Chunks that draw the picture (PNG, third edition, clauses 11.2 and 11.3). */
const KEPT = new Set('IHDR PLTE IDAT IEND tRNS cHRM gAMA iCCP sBIT sRGB cICP bKGD pHYs'.split(' '));
const SIGNATURE = 8;

/** A PNG with only what draws it; every chunk's checksum must hold. Throws `bad-picture`. */
export function cleanPng(bytes: Uint8Array, where: string): CleanPicture {
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const kept: Uint8Array[] = [bytes.subarray(0, SIGNATURE)];
  let size: { width: number; height: number } | null = null;
  let hasData = false;
  let at = SIGNATURE;
  for (;;) {
    if (at + 12 > bytes.length) throw cutShort(where);
    const end = at + 12 + view.getUint32(at);
    if (end > bytes.length) throw cutShort(where);
    const name = lettersAt(bytes, at + 4, 4);
    if (crc32.buf(bytes.subarray(at + 4, end - 4), 0) >>> 0 !== view.getUint32(end - 4)) {
      throw cutShort(where);
    }
    if ((size === null) !== (name === 'IHDR')) throw cutShort(where);
    if (name === 'IHDR') {
      if (end - at !== 25) throw cutShort(where);
      size = { width: view.getUint32(at + 8), height: view.getUint32(at + 12) };
      checkPixels(where, size.width, size.height);
    }
    if (name === 'IDAT') hasData = true;
    if (KEPT.has(name)) kept.push(bytes.subarray(at, end));
    at = end;
    if (name === 'IEND') break;
  }
  if (size === null || !hasData) throw cutShort(where);
  return { type: 'image/png', bytes: joinBytes(kept), ...size, exif: NO_EXIF };
}
