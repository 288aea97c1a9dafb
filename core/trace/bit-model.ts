import type { BitCoder } from './bit-coder.ts';

/** Seen bits after which a chance stops settling: it then follows about the last 200. */
const SETTLED = 200;
const LEAST = 32;
const MOST = 65_536 - LEAST;

/** Shares by which the nth bit of a context moves its chance. Divisions only: the same everywhere. */
const RATES = Float64Array.from({ length: SETTLED + 1 }, (_, seen) => 1 / (seen + 1.6));

/** Learns the chance of a 1 in each of a number of contexts, while coding. */
export class BitModel {
  private readonly chances: Float64Array;
  private readonly seen: Uint8Array;

  constructor(contexts: number) {
    this.chances = new Float64Array(contexts).fill(0.5);
    this.seen = new Uint8Array(contexts);
  }

  /** Starts a context from a guess, held as firmly as if a few bits had shown it. */
  expect(context: number, chance: number): void {
    this.chances[context] = chance;
    this.seen[context] = 2;
  }

  /** Codes a bit in its context and learns from it. */
  code(coder: BitCoder, context: number, bit: number): number {
    const chance = this.chances[context]!;
    const seen = this.seen[context]!;
    const scaled = (chance * 65_536) | 0;
    const real = coder.code(Math.min(MOST, Math.max(LEAST, scaled)), bit);
    this.chances[context] = chance + (real - chance) * RATES[seen]!;
    if (seen < SETTLED) this.seen[context] = seen + 1;
    return real;
  }
}

/** Codes the low `bits` bits of a whole number below 2^32 as they are, high bits first. */
export function codeFlat(coder: BitCoder, value: number, bits: number): number {
  let real = 0;
  for (let i = bits - 1; i >= 0; i -= 1) real = real * 2 + coder.code(32_768, (value >>> i) & 1);
  return real;
}
