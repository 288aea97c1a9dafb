/** How far a block has come: `need` more bytes at least, or its content and where the rest starts. */
export type BlockState =
  | { readonly kind: 'none' }
  | { readonly kind: 'short'; readonly need: number }
  | { readonly kind: 'whole'; readonly content: Uint8Array; readonly endsAt: number };

const HASH = 35;
const DIGIT_0 = 48;
const LINE_FEED = 10;

/**
 * Reads arbitrary block response data at the start of `bytes` (IEEE 488.2: `#`, one digit that
 * counts the length digits, the length, that many bytes, any value, line ends included; `#0` runs
 * to the next LF). A block shorter than declared is `short`: never handed on.
 */
export function readBlock(bytes: Uint8Array): BlockState {
  if (bytes.length === 0) return { kind: 'short', need: 2 };
  if (bytes[0] !== HASH) return { kind: 'none' };
  if (bytes.length < 2) return { kind: 'short', need: 1 };
  const lengthDigits = bytes[1]! - DIGIT_0;
  if (lengthDigits < 0 || lengthDigits > 9) return { kind: 'none' };
  if (lengthDigits === 0) {
    const end = bytes.indexOf(LINE_FEED, 2);
    if (end < 0) return { kind: 'short', need: 1 };
    return { kind: 'whole', content: bytes.subarray(2, end), endsAt: end };
  }
  const start = 2 + lengthDigits;
  if (bytes.length < start) return { kind: 'short', need: start - bytes.length };
  let length = 0;
  for (let i = 2; i < start; i += 1) {
    const digit = bytes[i]! - DIGIT_0;
    if (digit < 0 || digit > 9) return { kind: 'none' };
    length = length * 10 + digit;
  }
  if (bytes.length < start + length) return { kind: 'short', need: start + length - bytes.length };
  return { kind: 'whole', content: bytes.subarray(start, start + length), endsAt: start + length };
}
