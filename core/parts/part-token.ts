/** A word of typed text with its place in it: `[at, end)`. */
export interface PartToken {
  readonly text: string;
  readonly at: number;
  readonly end: number;
}

const NUMBER = /^[±+\-\u2212]?\d*[.,]?\d+$/;
const UNIT_WORD =
  /^([pnuµμmkKMG]?(F|H|Hz|V|VDC|A|W|Ω|\u2126|ohms?|R)|[pnuµμkKMG]|%|mm|metric|inch|in)$/i;
/** After these a unit may still follow: 10u F, 23m ohm. */
const NUMBER_AND_PREFIX = /^\d*[.,]?\d+[pnuµμmkKMG]$/;
const BARE_UNIT = /^(F|H|Hz|Ω|\u2126|ohms?)$/i;

/**
 * Cuts typed text into words at spaces, semicolons, slashes and commas (a comma between digits is a
 * decimal comma, a slash between digits a fraction), and joins a number with the unit typed after a
 * space: `10 uF` is one word.
 */
export function partTokens(text: string): readonly PartToken[] {
  const words: PartToken[] = [];
  const pattern =
    /(?:[^\s;,/=:@]|(?<=\d),(?=\d)|(?<=\d)\/(?=[\d\-\u2212+])|(?<=\+)\/(?=[-\u2212]))+/gu;
  for (const match of text.matchAll(pattern)) {
    words.push({ text: match[0], at: match.index, end: match.index + match[0].length });
  }
  const joined: PartToken[] = [];
  for (const word of words) {
    const last = joined.at(-1);
    const isUnitOfLast =
      last !== undefined &&
      ((NUMBER.test(last.text) && UNIT_WORD.test(word.text)) ||
        (NUMBER_AND_PREFIX.test(last.text) && BARE_UNIT.test(word.text)));
    if (isUnitOfLast) {
      joined.pop();
      joined.push({ text: last.text + word.text, at: last.at, end: word.end });
    } else {
      joined.push(word);
    }
  }
  return joined;
}
