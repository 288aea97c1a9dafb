import type { BitCoder, BitDecoder } from './bit-coder.ts';
import { BitModel, codeFlat } from './bit-model.ts';
import { decimalDigits, MOST_DIGITS, TENS, wholeOf } from './decimal-scale.ts';
import { CountModel, ResidualModel } from './integer-model.ts';
import { Predictor } from './predictor.ts';
import { damaged } from './sealed-bytes.ts';

/** A value that is not in the whole-number series. */
const ODD_NAN = 0;
const ODD_MINUS_ZERO = 1;
const ODD_RAW = 2;
const DIGIT_BITS = 5;
/** In place of digits: the column is stored as raw doubles. */
const NO_DECIMALS = (1 << DIGIT_BITS) - 1;

const WHERE = 'a stored column';
const double = new Float64Array(1);
const halves = new Uint32Array(double.buffer);

/**
 * Codes a column of doubles without loss. Decimals become whole numbers (times a power of ten,
 * over their common divisor), predicted and coded by their residuals; where they stand is coded
 * in runs, and everything else (NaN, -0, doubles that are no decimals) is coded aside.
 */
export function encodeColumn(coder: BitCoder, values: Float64Array): void {
  const digits = decimalDigits(values);
  codeFlat(coder, digits ?? NO_DECIMALS, DIGIT_BITS);
  const wholes = new Float64Array(values.length);
  for (let i = 0; i < values.length; i += 1) {
    wholes[i] = digits === null ? Number.NaN : wholeOf(values[i]!, digits);
  }
  const first = wholes.find((whole) => !Number.isNaN(whole)) ?? 0;
  const divisor = commonDivisor(wholes, first);
  const counts = new CountModel();
  counts.code(coder, divisor);
  codeFirst(coder, first);

  const odd = new OddValues();
  const series = new WholeSeries();
  for (let from = 0, isOdd = false; from < values.length; isOdd = !isOdd) {
    let to = from;
    while (to < values.length && Number.isNaN(wholes[to]!) === isOdd) to += 1;
    counts.code(coder, to - from);
    for (let i = from; i < to; i += 1) {
      if (isOdd) odd.code(coder, values[i]!);
      else series.code(coder, (wholes[i]! - first) / divisor);
    }
    from = to;
  }
}

/** Reads a column of `length` doubles. Throws `bad-chunk` when it cannot be one. */
export function decodeColumn(coder: BitDecoder, length: number): Float64Array {
  const digits = codeFlat(coder, 0, DIGIT_BITS);
  if (digits > MOST_DIGITS && digits !== NO_DECIMALS) {
    throw damaged(WHERE, `it claims ${digits} digits`);
  }
  const ten = TENS[digits] ?? 1;
  const counts = new CountModel();
  const divisor = counts.code(coder, 0);
  const first = codeFirst(coder, 0);

  const values = new Float64Array(length);
  const odd = new OddValues();
  const series = new WholeSeries();
  for (let from = 0, isOdd = false; from < length; isOdd = !isOdd) {
    const to = from + counts.code(coder, 0);
    // Only the first run may be empty; anything else would never end.
    if (to > length || (to === from && (isOdd || from > 0))) {
      throw damaged(WHERE, `a run of ${to - from} values at ${from} of ${length}`);
    }
    for (let i = from; i < to; i += 1) {
      values[i] = isOdd ? odd.code(coder, 0) : (series.code(coder, 0) * divisor + first) / ten;
    }
    if (coder.overrun > 4) throw damaged(WHERE, 'it ends early');
    from = to;
  }
  return values;
}

/** Whole numbers that follow one another. */
class WholeSeries {
  private readonly predictor = new Predictor();
  private readonly residuals = new ResidualModel();

  code(coder: BitCoder, whole: number): number {
    const { prediction, bucket, fraction } = this.predictor;
    const residual = this.residuals.code(coder, whole - prediction, bucket, fraction);
    const real = prediction + residual;
    this.predictor.update(real);
    return real;
  }
}

/** Values that are no decimals. */
class OddValues {
  private readonly kinds = new BitModel(4);
  private readonly bytes = new BitModel(8 * 256);
  private high = 0;
  private low = 0;

  code(coder: BitCoder, value: number): number {
    const kind = Number.isNaN(value) ? ODD_NAN : Object.is(value, -0) ? ODD_MINUS_ZERO : ODD_RAW;
    if (this.kinds.code(coder, 0, kind === ODD_NAN ? 1 : 0) === 1) return Number.NaN;
    if (this.kinds.code(coder, 1, kind === ODD_MINUS_ZERO ? 1 : 0) === 1) return -0;
    double[0] = value;
    const high = this.word(coder, 0, (halves[1]! ^ this.high) >>> 0);
    const low = this.word(coder, 4, (halves[0]! ^ this.low) >>> 0);
    this.high = (this.high ^ high) >>> 0;
    this.low = (this.low ^ low) >>> 0;
    halves[1] = this.high;
    halves[0] = this.low;
    return double[0];
  }

  /** Four bytes, each by a tree of chances of its own place in the double. */
  private word(coder: BitCoder, place: number, word: number): number {
    let real = 0;
    for (let i = 0; i < 4; i += 1) {
      const byte = (word >>> (24 - 8 * i)) & 0xff;
      let node = 1;
      for (let bit = 7; bit >= 0; bit -= 1) {
        node = node * 2 + this.bytes.code(coder, (place + i) * 256 + node, (byte >>> bit) & 1);
      }
      real = (real * 256 + (node & 0xff)) >>> 0;
    }
    return real;
  }
}

/** A first value, as sign and size. */
function codeFirst(coder: BitCoder, first: number): number {
  const isBelow = coder.code(32_768, first < 0 ? 1 : 0) === 1;
  const size = new CountModel().code(coder, Math.abs(first));
  return isBelow ? -size : size;
}

/** Greatest common divisor of all differences from the first whole number; 1 when all are alike. */
function commonDivisor(wholes: Float64Array, first: number): number {
  let divisor = 0;
  for (let i = 0; i < wholes.length && divisor !== 1; i += 1) {
    const whole = wholes[i]!;
    if (Number.isNaN(whole)) continue;
    let a = Math.abs(whole - first);
    while (a > 0) {
      const rest = divisor % a;
      divisor = a;
      a = rest;
    }
  }
  return divisor === 0 ? 1 : divisor;
}
