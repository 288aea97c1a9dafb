import type { Mark } from '../stages/stage.ts';

/** A mark on a plot: a stalk through the frame with its letter on top. */
export interface MarkPin {
  readonly at: number;
  readonly letter: string;
  /** False when neighbours are too close for another letter: the stalk stays. */
  readonly lettered: boolean;
}

const LETTER_WIDTH = 11;

/** Letters of marks in order: a ... z, aa, ab ... */
export function markLetter(index: number): string {
  const letter = String.fromCharCode(97 + (index % 26));
  return index < 26 ? letter : markLetter(Math.floor(index / 26) - 1) + letter;
}

/** Places marks over the frame; `place` turns seconds into plot units. */
export function pinMarks(
  marks: readonly Mark[],
  place: (seconds: number) => number,
  frame: { readonly left: number; readonly right: number },
): MarkPin[] {
  let lastLettered = -Infinity;
  return marks.map((mark, i) => {
    const at = Math.min(frame.right, Math.max(frame.left, place(mark.atS)));
    const letter = markLetter(i);
    const lettered = at - lastLettered >= LETTER_WIDTH * Math.max(1, letter.length * 0.7);
    if (lettered) lastLettered = at;
    return { at, letter, lettered };
  });
}
