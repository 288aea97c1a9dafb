/** A word of a text, folded, with where it stands in the text as it was written. */
export interface FoldedWord {
  readonly word: string;
  /** Index of its first character and one past its last, in UTF-16 units of the text. */
  readonly from: number;
  readonly to: number;
}

/** What a word is made of; everything else parts words (the tokenizer `unicode61` splits alike). */
const INSIDE = /[\p{L}\p{N}\p{Co}]/u;

/** Text as searches compare it: compatibility forms and accents gone, no case. */
export function foldForSearch(text: string): string {
  const bare = (part: string) => part.normalize('NFKD').replace(/\p{M}/gu, '');
  return bare(bare(text).toLowerCase());
}

/** The words of a text in order. */
export function foldedWords(text: string): readonly FoldedWord[] {
  const words: FoldedWord[] = [];
  let word = '';
  let from = 0;
  const end = (to: number): void => {
    if (word !== '') words.push({ word, from, to });
    word = '';
  };
  let at = 0;
  for (const letter of text) {
    // A mark by itself belongs to the letter before it and changes nothing.
    const isMark = /^\p{M}$/u.test(letter);
    const folded = [...foldForSearch(letter)];
    if (!isMark) {
      for (const one of folded.length === 0 ? [' '] : folded) {
        if (!INSIDE.test(one)) end(at);
        else {
          if (word === '') from = at;
          word += one;
        }
      }
    }
    at += letter.length;
  }
  end(at);
  return words;
}

/** The same words without their places, as they are put into an index or asked of it. */
export const wordsOf = (text: string): readonly string[] =>
  foldedWords(text).map(({ word }) => word);
