import { MARK_WORDS, type Mark } from '../../core/stages/stage.ts';

export interface PlacedFlag {
  readonly mark: Mark;
  /** Pixels from the left edge of the plot. */
  readonly x: number;
  /** What fits beside the flag; empty when nothing does. */
  readonly words: string;
  /** Words stand left of the flag where there is no room right of it. */
  readonly isLeft: boolean;
}

/** Pixels of a letter of a flag's word, of the flag itself, and most pixels for words. */
const LETTER = 7.2;
const FLAG = 14;
const MOST = 200;
const FEWEST_LETTERS = 8;

/** Gives each mark in view its words, shortened or dropped so that none runs into the next. */
export function placeFlags(
  marks: readonly Mark[],
  toX: (atS: number) => number,
  width: number,
): readonly PlacedFlag[] {
  const inView = marks
    .map((mark) => ({ mark, x: toX(mark.atS) }))
    .filter(({ x }) => x >= 0 && x <= width)
    .sort((a, b) => a.x - b.x);
  let freeFrom = 0;
  return inView.map(({ mark, x }, i) => {
    const whole = mark.mark === 'note' && mark.text !== '' ? mark.text : MARK_WORDS[mark.mark];
    const room = Math.min(MOST, (inView[i + 1]?.x ?? width) - x - FLAG);
    const isNote = mark.mark === 'note';
    const isRoom = whole.length * LETTER <= room;
    const right = x < freeFrom ? '' : isRoom ? whole : isNote ? shorten(whole, room) : '';
    if (right !== '') {
      freeFrom = x + FLAG + right.length * LETTER;
      return { mark, x, words: right, isLeft: false };
    }
    const isLeft = x - freeFrom - FLAG >= whole.length * LETTER;
    if (isLeft) freeFrom = x;
    return { mark, x, words: isLeft ? whole : '', isLeft };
  });
}

/** A note's first words; a mark's own word is whole or not there. */
function shorten(words: string, room: number): string {
  const letters = Math.floor(room / LETTER);
  return letters < FEWEST_LETTERS ? '' : `${words.slice(0, letters - 1)}…`;
}
