/** A piece of a typed search between blanks, or between quotes. */
export interface TypedWord {
  readonly text: string;
  readonly isQuoted: boolean;
  readonly from: number;
  readonly to: number;
}

/** Quotes as keyboards and word processors make them. */
const QUOTES = /["“”„«»]/u;

/** Splits a typed search at blanks; a quote runs to the next one, or to the end where none comes. */
export function splitSearch(search: string): readonly TypedWord[] {
  const words: TypedWord[] = [];
  let at = 0;
  while (at < search.length) {
    if (/\s/u.test(search.charAt(at))) {
      at += 1;
      continue;
    }
    const from = at;
    if (QUOTES.test(search.charAt(at))) {
      at += 1;
      while (at < search.length && !QUOTES.test(search.charAt(at))) at += 1;
      words.push({ text: search.slice(from + 1, at), isQuoted: true, from, to: at + 1 });
      at += 1;
      continue;
    }
    while (at < search.length && !/\s/u.test(search.charAt(at)) && !QUOTES.test(search.charAt(at)))
      at += 1;
    words.push({ text: search.slice(from, at), isQuoted: false, from, to: at });
  }
  return words.map((word) => ({ ...word, to: Math.min(word.to, search.length) }));
}
