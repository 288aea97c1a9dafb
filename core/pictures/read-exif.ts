/** The two things of a camera's notes that are of use; where it was taken is never read. */
export interface ExifFacts {
  /** How the picture is turned, 1 to 8, by Exif 2.32 (CIPA DC-008); 1 = upright. */
  readonly orientation: number;
  /** The camera's clock when it was taken, as ms as if it were UTC; null = not told. */
  readonly takenLocalMs: number | null;
  /** Minutes east of UTC of that clock; null = not told. */
  readonly offsetMin: number | null;
}

export const NO_EXIF: ExifFacts = { orientation: 1, takenLocalMs: null, offsetMin: null };

const ORIENTATION = 0x0112;
const EXIF_PART = 0x8769;
const TAKEN = 0x9003;
const TAKEN_OFFSET = 0x9011;
const SHORT = 3;
const LONG = 4;
const ASCII = 2;
const ENTRY = 12;

type Tags = ReadonlyMap<number, number | string>;

/** Reads the notes of a camera (a TIFF block, without a leading "Exif"). Damaged notes say nothing. */
export function readExif(tiff: Uint8Array): ExifFacts {
  const view = new DataView(tiff.buffer, tiff.byteOffset, tiff.byteLength);
  if (view.byteLength < 8) return NO_EXIF;
  const order = view.getUint16(0);
  const isLittle = order === 0x4949;
  if ((!isLittle && order !== 0x4d4d) || view.getUint16(2, isLittle) !== 42) return NO_EXIF;
  const first = readTags(view, view.getUint32(4, isLittle), isLittle);
  const turned = first.get(ORIENTATION);
  const part = first.get(EXIF_PART);
  const more: Tags = typeof part === 'number' ? readTags(view, part, isLittle) : new Map();
  return {
    orientation: typeof turned === 'number' && turned >= 1 && turned <= 8 ? turned : 1,
    takenLocalMs: localMs(more.get(TAKEN)),
    offsetMin: minutesEast(more.get(TAKEN_OFFSET)),
  };
}

function readTags(view: DataView, at: number, isLittle: boolean): Tags {
  const tags = new Map<number, number | string>();
  if (at + 2 > view.byteLength) return tags;
  const count = view.getUint16(at, isLittle);
  for (let entry = at + 2; tags.size < count && entry + ENTRY <= view.byteLength; entry += ENTRY) {
    const tag = view.getUint16(entry, isLittle);
    const type = view.getUint16(entry + 2, isLittle);
    const values = view.getUint32(entry + 4, isLittle);
    if (type === SHORT) tags.set(tag, view.getUint16(entry + 8, isLittle));
    else if (type === LONG) tags.set(tag, view.getUint32(entry + 8, isLittle));
    else if (type === ASCII && values <= 64) {
      const from = values <= 4 ? entry + 8 : view.getUint32(entry + 8, isLittle);
      tags.set(tag, from + values <= view.byteLength ? asciiAt(view, from, values) : '');
    } else tags.set(tag, '');
  }
  return tags;
}

function asciiAt(view: DataView, from: number, count: number): string {
  let text = '';
  for (let i = from; i < from + count && view.getUint8(i) !== 0; i += 1) {
    text += String.fromCharCode(view.getUint8(i));
  }
  return text;
}

/** "2026:01:05 09:30:00", as cameras write it. */
function localMs(text: number | string | undefined): number | null {
  const found = /^(\d{4}):(\d\d):(\d\d) (\d\d):(\d\d):(\d\d)$/.exec(String(text ?? ''));
  if (found === null) return null;
  const [year, month, day, hour, minute, second] = found.slice(1).map(Number);
  const ms = Date.UTC(year!, month! - 1, day, hour, minute, second);
  return month! >= 1 && month! <= 12 && year! >= 1990 && Number.isFinite(ms) ? ms : null;
}

function minutesEast(text: number | string | undefined): number | null {
  const found = /^([+-])(\d\d):(\d\d)$/.exec(String(text ?? '').trim());
  if (found === null) return null;
  const minutes = Number(found[2]) * 60 + Number(found[3]);
  return found[1] === '-' ? -minutes : minutes;
}
