import { wordsOf } from './fold-words.ts';

/** People read off the last three signs or more. */
const SHORTEST = 3;
const LONGEST = 40;

/**
 * What a serial number or a board's name is also looked for by: without its dashes and blanks, and
 * for serial numbers from any of its signs on, because labels are read from their end.
 */
export function codeWords(serialNumber: string, boardModel: string | null): readonly string[] {
  const compact = wordsOf(serialNumber).join('').slice(0, LONGEST);
  const ends = Array.from({ length: Math.max(0, compact.length - SHORTEST + 1) }, (_, from) =>
    compact.slice(from),
  );
  const model = wordsOf(boardModel ?? '').join('');
  return [...new Set([compact, ...ends, model])].filter((word) => word !== '');
}
