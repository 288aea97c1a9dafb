/** Bits in a row, highest first, as the compression papers draw them. */
export class BitString {
  bytes = new Uint8Array(1024);
  size = 0;
  private at = 0;

  write(value: bigint | number, bits: number): void {
    let left = BigInt.asUintN(64, BigInt(value));
    left = BigInt.asUintN(bits, left);
    for (let i = bits - 1; i >= 0; i -= 1) {
      if (this.size >> 3 === this.bytes.length) {
        const wider = new Uint8Array(this.bytes.length * 2);
        wider.set(this.bytes);
        this.bytes = wider;
      }
      if ((left >> BigInt(i)) & 1n) this.bytes[this.size >> 3]! |= 128 >> (this.size & 7);
      this.size += 1;
    }
  }

  read(bits: number): bigint {
    let value = 0n;
    for (let i = 0; i < bits; i += 1) {
      const bit = (this.bytes[this.at >> 3]! >> (7 - (this.at & 7))) & 1;
      value = (value << 1n) | BigInt(bit);
      this.at += 1;
    }
    return value;
  }

  hex(): string {
    return Buffer.from(this.bytes.subarray(0, (this.size + 7) >> 3)).toString('hex');
  }
}
