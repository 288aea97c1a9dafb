import { BitString } from './bit-string.ts';

/**
 * The time series compression of Pelkonen et al., "Gorilla", PVLDB 8(12) 2015, section 4.1, as the
 * paper has it (the code released later differs): delta of delta for times, XOR for values. A
 * yardstick for the bench only.
 */
export function encodeXor(start: number, times: readonly number[], values: readonly number[]) {
  const out = new BitString();
  out.write(start, 64);
  let [time, delta] = [start, 0];
  let previous = 0n;
  let window: { leading: number; trailing: number } | null = null;
  times.forEach((at, i) => {
    const next = at - time;
    if (i === 0) out.write(next, 14);
    else writeDelta(out, next - delta);
    [time, delta] = [at, next];
    const bits = bitsOf(values[i]!);
    if (i === 0) out.write(bits, 64);
    else window = writeXor(out, bits ^ previous, window);
    previous = bits;
  });
  return out;
}

/** Reads `count` points back. */
export function decodeXor(input: BitString, count: number) {
  const times: number[] = [];
  const values: number[] = [];
  let time = Number(input.read(64));
  let delta = 0;
  let bits = 0n;
  let window = { leading: 0, length: 64 };
  for (let i = 0; i < count; i += 1) {
    delta = i === 0 ? Number(input.read(14)) : delta + readDelta(input);
    time += delta;
    times.push(time);
    if (i === 0) {
      bits = input.read(64);
    } else if (input.read(1) === 1n) {
      if (input.read(1) === 1n) {
        const leading = Number(input.read(5));
        window = { leading, length: Number(input.read(6)) || 64 };
      }
      const shift = BigInt(64 - window.leading - window.length);
      bits ^= input.read(window.length) << shift;
    }
    values.push(doubleOf(bits));
  }
  return { times, values };
}

const CLASSES = [
  { mark: 0b10, markBits: 2, bits: 7 },
  { mark: 0b110, markBits: 3, bits: 9 },
  { mark: 0b1110, markBits: 4, bits: 12 },
] as const;

function writeDelta(out: BitString, value: number): void {
  if (value === 0) {
    out.write(0, 1);
    return;
  }
  for (const { mark, markBits, bits } of CLASSES) {
    const half = 2 ** (bits - 1);
    if (value < -half + 1 || value > half) continue;
    out.write(mark, markBits);
    out.write(value, bits);
    return;
  }
  out.write(0b1111, 4);
  out.write(value, 32);
}

function readDelta(input: BitString): number {
  let ones = 0;
  while (ones < 4 && input.read(1) === 1n) ones += 1;
  if (ones === 0) return 0;
  const bits = CLASSES[ones - 1]?.bits ?? 32;
  const raw = Number(input.read(bits));
  const half = 2 ** (bits - 1);
  // The classes reach from -half + 1 to half; 32 bits are plain two's complement.
  return raw > half || (bits === 32 && raw === half) ? raw - 2 * half : raw;
}

function writeXor(
  out: BitString,
  xor: bigint,
  window: { leading: number; trailing: number } | null,
) {
  if (xor === 0n) {
    out.write(0, 1);
    return window;
  }
  const text = xor.toString(2).padStart(64, '0');
  const leading = Math.min(31, text.indexOf('1'));
  const trailing = 63 - text.lastIndexOf('1');
  if (window !== null && leading >= window.leading && trailing >= window.trailing) {
    out.write(0b10, 2);
    out.write(xor >> BigInt(window.trailing), 64 - window.leading - window.trailing);
    return window;
  }
  const length = 64 - leading - trailing;
  out.write(0b11, 2);
  out.write(leading, 5);
  // Six bits carry the length 64 as 0.
  out.write(length, 6);
  out.write(xor >> BigInt(trailing), length);
  return { leading, trailing };
}

const view = new DataView(new ArrayBuffer(8));

export function bitsOf(value: number): bigint {
  view.setFloat64(0, value);
  return view.getBigUint64(0);
}

function doubleOf(bits: bigint): number {
  view.setBigUint64(0, bits);
  return view.getFloat64(0);
}
