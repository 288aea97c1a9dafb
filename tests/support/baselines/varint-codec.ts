/**
 * Differences of whole numbers as variable-length bytes, sign folded in ("zigzag"), as Protocol
 * Buffers writes `sint64`. A yardstick for the bench only.
 */
export function encodeVarint(series: readonly number[]): Uint8Array {
  const bytes: number[] = [];
  let last = 0;
  for (const value of series) {
    let folded = zigzag(value - last);
    last = value;
    while (folded >= 128) {
      bytes.push((folded % 128) | 128);
      folded = Math.floor(folded / 128);
    }
    bytes.push(folded);
  }
  return Uint8Array.from(bytes);
}

/** Reads what `encodeVarint` wrote. */
export function decodeVarint(bytes: Uint8Array): number[] {
  const series: number[] = [];
  let [last, folded, scale] = [0, 0, 1];
  for (const byte of bytes) {
    folded += (byte & 127) * scale;
    scale *= 128;
    if (byte >= 128) continue;
    last += folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
    series.push(last);
    [folded, scale] = [0, 1];
  }
  return series;
}

function zigzag(value: number): number {
  return value >= 0 ? value * 2 : -value * 2 - 1;
}
