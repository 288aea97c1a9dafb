import { BitDecoder, BitEncoder } from './bit-coder.ts';
import { decodeColumn, encodeColumn } from './column-codec.ts';
import { decimalDigits, MOST_DIGITS, TENS } from './decimal-scale.ts';
import { CountModel } from './integer-model.ts';
import { createLevel, openNode, type PyramidLevel } from './pyramid-level.ts';
import { damaged, openSealed, seal } from './sealed-bytes.ts';

const MAGIC = 0x50;
const VERSION = 1;
const WHERE = 'a stored pyramid';
/** Most nodes that are read: 64 samples each, 18 hours at 1,000 a second. */
const MOST_NODES = 1 << 20;
/** Fields of one quantity in a level. */
const QUANTITIES = [
  { count: 'voltsCount', min: 'voltsMin', max: 'voltsMax', sum: 'voltsSum' },
  { count: 'ampsCount', min: 'ampsMin', max: 'ampsMax', sum: 'ampsSum' },
] as const;

/**
 * Packs the lowest level of a pyramid, without loss but for the means: they keep one decimal
 * digit more than the readings.
 */
export function packLevel(level: PyramidLevel): Uint8Array {
  const { size, firstTick, lastTick, count } = level;
  const coder = new BitEncoder();
  const put = (of: (node: number) => number) => {
    encodeColumn(
      coder,
      Float64Array.from({ length: size }, (_, node) => of(node)),
    );
  };
  new CountModel().code(coder, size);
  put((node) => (node === 0 ? firstTick[0]! : firstTick[node]! - lastTick[node - 1]!));
  put((node) => lastTick[node]! - firstTick[node]!);
  put((node) => count[node]!);
  for (const { count: readings, min, max, sum } of QUANTITIES) {
    put((node) => count[node]! - level[readings][node]!);
    put((node) => level[min][node]!);
    put((node) => level[max][node]!);
    const mean = meanRounder(level[min].subarray(0, size), level[max].subarray(0, size));
    put((node) => mean(level[sum][node]! / level[readings][node]!));
  }
  return seal(MAGIC, VERSION, coder.finish());
}

/** Reads what `packLevel` wrote. Throws `bad-chunk` when the bytes are damaged. */
export function unpackLevel(bytes: Uint8Array): PyramidLevel {
  const coder = new BitDecoder(openSealed(bytes, MAGIC, VERSION, WHERE));
  const size = new CountModel().code(coder, 0);
  if (size > MOST_NODES) throw damaged(WHERE, `it claims ${size} nodes`);
  const waits = decodeColumn(coder, size);
  const spans = decodeColumn(coder, size);
  const level = createLevel(Math.max(1, size));
  let tick = 0;
  for (let node = 0; node < size; node += 1) {
    tick += waits[node]!;
    openNode(level, tick);
    tick += spans[node]!;
    level.lastTick[node] = tick;
  }
  level.count.set(decodeColumn(coder, size));
  for (const { count, min, max, sum } of QUANTITIES) {
    const missing = decodeColumn(coder, size);
    level[min].set(decodeColumn(coder, size));
    level[max].set(decodeColumn(coder, size));
    const means = decodeColumn(coder, size);
    for (let node = 0; node < size; node += 1) {
      const readings = level.count[node]! - missing[node]!;
      level[count][node] = readings;
      level[sum][node] = readings === 0 ? 0 : means[node]! * readings;
    }
  }
  if (coder.overrun > 4) throw damaged(WHERE, 'it ends early');
  return level;
}

/** Rounds means to a tenth of the readings' last digit; readings that are no decimals to 24 bits. */
function meanRounder(lowest: Float64Array, highest: Float64Array): (mean: number) => number {
  const low = decimalDigits(lowest);
  const high = decimalDigits(highest);
  if (low === null || high === null) return Math.fround;
  const ten = TENS[Math.min(MOST_DIGITS, Math.max(low, high) + 1)]!;
  return (mean) => Math.round(mean * ten) / ten;
}
