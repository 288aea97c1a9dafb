/** Pieces of bytes one after the other in a new array. */
export function joinBytes(pieces: readonly Uint8Array[]): Uint8Array<ArrayBuffer> {
  const joined = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    joined.set(piece, at);
    at += piece.length;
  }
  return joined;
}

/** Letters of a fixed-width name inside bytes, one byte a letter. */
export function lettersAt(bytes: Uint8Array, at: number, count: number): string {
  return String.fromCharCode(...bytes.subarray(at, at + count));
}
