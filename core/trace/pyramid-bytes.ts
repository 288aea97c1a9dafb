import { createLevel, type PyramidLevel } from './pyramid-level.ts';
import { damaged, openSealed, seal } from './sealed-bytes.ts';

const MAGIC = 0x50;
const VERSION = 1;
const ORDER = [
  'firstTick',
  'lastTick',
  'count',
  'voltsCount',
  'voltsMin',
  'voltsMax',
  'voltsSum',
  'ampsCount',
  'ampsMin',
  'ampsMax',
  'ampsSum',
] as const;

/** Packs the lowest level of a pyramid. */
export function packLevel(level: PyramidLevel): Uint8Array {
  const values = new Float64Array(level.size * ORDER.length);
  ORDER.forEach((field, i) => {
    values.set(level[field].subarray(0, level.size), i * level.size);
  });
  return seal(MAGIC, VERSION, new Uint8Array(values.buffer));
}

/** Reads what `packLevel` wrote. Throws `bad-chunk` when the bytes are damaged. */
export function unpackLevel(bytes: Uint8Array): PyramidLevel {
  const body = openSealed(bytes, MAGIC, VERSION, 'a stored pyramid');
  if (body.length % (8 * ORDER.length) !== 0)
    throw damaged('a stored pyramid', 'its length is odd');
  const size = body.length / (8 * ORDER.length);
  const level = createLevel(Math.max(1, size));
  const values = new Float64Array(body.slice().buffer);
  level.size = size;
  ORDER.forEach((field, i) => {
    level[field].set(values.subarray(i * size, (i + 1) * size));
  });
  return level;
}
