/**
 * How many pixel columns of a picture (binary PPM, as pdftoppm writes it) hold `colour`, give or
 * take what smoothing does to a thin line: a curve fills nearly all across its frame, a label few.
 */
export function columnsOfColour(
  ppm: Uint8Array,
  colour: readonly [number, number, number],
): number {
  const head = Buffer.from(ppm.subarray(0, 64)).toString('latin1');
  const header = /^P6\s+(\d+)\s+(\d+)\s+255\s/.exec(head);
  if (header === null) throw new Error('not a binary PPM picture');
  const width = Number(header[1]);
  const columns = new Set<number>();
  for (let i = 0; i < width * Number(header[2]); i += 1) {
    const at = header[0].length + i * 3;
    if (colour.every((part, k) => Math.abs(ppm[at + k]! - part) <= 40)) columns.add(i % width);
  }
  return columns.size;
}
