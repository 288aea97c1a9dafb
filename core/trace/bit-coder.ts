/**
 * Codes single bits by their probability (binary arithmetic coding with a 32-bit range, bytes
 * leaving as soon as both ends of the range agree on them). The same model code drives the
 * encoder and the decoder: `code` takes the bit to write and returns the bit that stands there.
 */
export interface BitCoder {
  /** `chance` of a 1, in 1/65536, from 1 to 65535. The decoder ignores `bit`. */
  code(chance: number, bit: number): number;
}

/** Where a range of which a share falls to the bit 1 is cut. */
function cut(low: number, high: number, chance: number): number {
  const range = high - low;
  return low + (range >>> 16) * chance + (((range & 0xffff) * chance) >>> 16);
}

/** Writes bits. */
export class BitEncoder implements BitCoder {
  private bytes = new Uint8Array(256);
  private size = 0;
  private low = 0;
  private high = 0xffffffff;

  code(chance: number, bit: number): number {
    const middle = cut(this.low, this.high, chance);
    if (bit !== 0) this.high = middle;
    else this.low = middle + 1;
    while (((this.low ^ this.high) & 0xff000000) === 0) {
      this.put(this.high >>> 24);
      this.low = (this.low << 8) >>> 0;
      this.high = ((this.high << 8) | 0xff) >>> 0;
    }
    return bit;
  }

  /** Ends the stream and returns its bytes. A reader past their end sees zeros. */
  finish(): Uint8Array {
    // One more byte lies inside the range: its ends never agree on their first byte here.
    if (this.low > 0) this.put((this.low >>> 24) + 1);
    return this.bytes.slice(0, this.size);
  }

  private put(byte: number): void {
    if (this.size === this.bytes.length) {
      const wider = new Uint8Array(this.size * 2);
      wider.set(this.bytes);
      this.bytes = wider;
    }
    this.bytes[this.size] = byte;
    this.size += 1;
  }
}

/** Reads bits that a `BitEncoder` wrote; bytes that never were read as zeros, so it always ends. */
export class BitDecoder implements BitCoder {
  private readonly bytes: Uint8Array;
  private at = 0;
  private low = 0;
  private high = 0xffffffff;
  private value = 0;

  constructor(bytes: Uint8Array) {
    this.bytes = bytes;
    for (let i = 0; i < 4; i += 1) this.value = ((this.value << 8) | this.next()) >>> 0;
  }

  /** How many bytes it wanted beyond the last one: more than four means that the stream was cut. */
  get overrun(): number {
    return Math.max(0, this.at - this.bytes.length);
  }

  code(chance: number): number {
    const middle = cut(this.low, this.high, chance);
    const bit = this.value <= middle ? 1 : 0;
    if (bit !== 0) this.high = middle;
    else this.low = middle + 1;
    while (((this.low ^ this.high) & 0xff000000) === 0) {
      this.low = (this.low << 8) >>> 0;
      this.high = ((this.high << 8) | 0xff) >>> 0;
      this.value = ((this.value << 8) | this.next()) >>> 0;
    }
    return bit;
  }

  private next(): number {
    const byte = this.at < this.bytes.length ? this.bytes[this.at]! : 0;
    this.at += 1;
    return byte;
  }
}
