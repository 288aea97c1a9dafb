import type { BitCoder } from './bit-coder.ts';
import { BitModel } from './bit-model.ts';

/** Bits of the largest size that is coded; sizes stay below 2^54. */
const SIZES = 54;
/** Bits below the highest whose chances are learned; the rest are as good as random. */
const LEARNED_BITS = 3;
const POWERS = Float64Array.from({ length: SIZES + 1 }, (_, i) => 2 ** i);

/** How many kinds of neighbourhood a residual can be in, and the finer kinds of its rounding. */
export const BUCKETS = 8;
export const FRACTIONS = 4;
/** Mean size of a residual in each bucket, to start from. */
const USUAL_SIZE = [0.2, 1, 2.2, 4, 7, 12, 20, 60];

/**
 * Codes whole residuals around 0: is it 0, its sign, how many bits it has, those bits. Chances
 * are kept apart by `bucket` (how large the last residuals were) and `fraction` (which way the
 * prediction was rounded), so a quiet stretch and a busy one each get what fits them.
 */
export class ResidualModel {
  private readonly zero = new BitModel(BUCKETS * FRACTIONS);
  private readonly sign = new BitModel(BUCKETS * FRACTIONS);
  private readonly size = new BitModel(BUCKETS * SIZES);
  private readonly bits = new BitModel(SIZES << LEARNED_BITS);

  constructor() {
    for (let bucket = 0; bucket < BUCKETS; bucket += 1) {
      const usual = USUAL_SIZE[bucket]!;
      for (let i = 0; i < FRACTIONS; i += 1) {
        this.zero.expect(bucket * FRACTIONS + i, 1 / (1 + 2 * usual));
      }
      for (let i = 0; i < SIZES; i += 1) {
        this.size.expect(bucket * SIZES + i, POWERS[i + 1]! <= 1.5 * usual ? 0.8 : 0.3);
      }
    }
  }

  code(coder: BitCoder, residual: number, bucket: number, fraction: number): number {
    const context = bucket * FRACTIONS + fraction;
    if (this.zero.code(coder, context, residual === 0 ? 1 : 0) === 1) return 0;
    const isBelow = this.sign.code(coder, context, residual < 0 ? 1 : 0) === 1;
    const size = codeSize(coder, this.size, bucket * SIZES, this.bits, Math.abs(residual));
    return isBelow ? -size : size;
  }
}

/** Codes counts: whole numbers from 0 to below 2^53. */
export class CountModel {
  private readonly size = new BitModel(SIZES);
  private readonly bits = new BitModel(SIZES << LEARNED_BITS);

  code(coder: BitCoder, count: number): number {
    return codeSize(coder, this.size, 0, this.bits, count + 1) - 1;
  }
}

/** Codes a whole number from 1: its bits counted one by one, then the bits below the highest. */
function codeSize(
  coder: BitCoder,
  sizes: BitModel,
  context: number,
  bits: BitModel,
  value: number,
): number {
  let length = 0;
  while (
    length < SIZES - 1 &&
    sizes.code(coder, context + length, value >= POWERS[length + 1]! ? 1 : 0) === 1
  ) {
    length += 1;
  }
  let real = 1;
  for (let i = length - 1; i >= 0; i -= 1) {
    const bit = Math.floor(value / POWERS[i]!) & 1;
    const isLearned = length - i <= LEARNED_BITS;
    real =
      real * 2 +
      (isLearned
        ? bits.code(coder, (length << LEARNED_BITS) + (real & 7), bit)
        : coder.code(32_768, bit));
  }
  return real;
}
