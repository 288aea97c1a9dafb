import { STAGE_WORDS, type Stage, type StageId } from '../stages/stage.ts';

/** One stage on the strip, `left` to `right` in plot units, with as much as fits in it. */
export interface StripCell {
  readonly left: number;
  readonly right: number;
  readonly number: number;
  readonly stage: StageId;
  readonly words: string;
  readonly shows: 'words' | 'glyph' | 'number' | 'nothing';
}

const LETTER = 5.6;
const NUMBER_ROOM = 13;
const GLYPH_ROOM = 26;

/** Lays the stages of a run side by side; `place` turns seconds into plot units. */
export function layStrip(
  stages: readonly Stage[],
  place: (seconds: number) => number,
): StripCell[] {
  return stages.map((stage, i) => {
    const left = place(stage.startS);
    const right = place(stage.endS);
    const words = STAGE_WORDS[stage.stage];
    const numberRoom = NUMBER_ROOM + LETTER * (String(i + 1).length - 1);
    return {
      left,
      right,
      number: i + 1,
      stage: stage.stage,
      words,
      shows: whatFits(right - left, numberRoom, words.length * LETTER + 8),
    };
  });
}

function whatFits(room: number, numberRoom: number, wordRoom: number): StripCell['shows'] {
  if (room >= numberRoom + GLYPH_ROOM + wordRoom) return 'words';
  if (room >= numberRoom + GLYPH_ROOM) return 'glyph';
  return room >= numberRoom ? 'number' : 'nothing';
}
