import * as zlib from 'node:zlib';

/** Node 24 has zstd; the types that the product is checked against are those of Node 20. */
interface Zstd {
  readonly constants: { readonly ZSTD_c_compressionLevel: number };
  zstdCompressSync(bytes: Uint8Array, options: { params: Record<number, number> }): Uint8Array;
  zstdDecompressSync(bytes: Uint8Array): Uint8Array;
}
const { constants, zstdCompressSync, zstdDecompressSync } = zlib as unknown as Zstd;

/**
 * Differences of whole numbers as 32-bit words, each of the four bytes of all words together, and
 * that by zstd at a high level: the best a general compressor does with little thought. A
 * yardstick for the bench only.
 */
export function encodeZstd(series: readonly number[]): Uint8Array {
  const count = series.length;
  const planes = new Uint8Array(count * 4);
  series.forEach((value, i) => {
    const step = value - (series[i - 1] ?? 0);
    const folded = step >= 0 ? step * 2 : -step * 2 - 1;
    for (let byte = 0; byte < 4; byte += 1) {
      planes[byte * count + i] = Math.floor(folded / 256 ** byte) % 256;
    }
  });
  return zstdCompressSync(planes, { params: { [constants.ZSTD_c_compressionLevel]: 19 } });
}

/** Reads what `encodeZstd` wrote. */
export function decodeZstd(bytes: Uint8Array): number[] {
  const planes = zstdDecompressSync(bytes);
  const count = planes.length / 4;
  let last = 0;
  return Array.from({ length: count }, (_, i) => {
    let folded = 0;
    for (let byte = 3; byte >= 0; byte -= 1) folded = folded * 256 + planes[byte * count + i]!;
    last += folded % 2 === 0 ? folded / 2 : -(folded + 1) / 2;
    return last;
  });
}
