/** Letters of a line of text across the first page, by the width of its own type; a little less. */
const LETTERS_A_ROW = 82;
/** Most letters of a line, tried in turn until the page holds all. */
const LIMITS = [4000, 900, 560, 380, 260, 180, 110] as const;

/** Lines of text cut to fit a page. */
export interface FittedLines<S> {
  readonly sections: readonly S[];
  readonly rows: number;
  /** True when anything was cut: the page says so, and where the whole text stands. */
  readonly isCut: boolean;
}

/** Rows that a text takes, its own line breaks counted. */
export function rowsOf(text: string): number {
  return text
    .split('\n')
    .reduce((rows, part) => rows + Math.max(1, Math.ceil(part.length / LETTERS_A_ROW)), 0);
}

/** Cuts a text behind a word and says that it goes on; line breaks become spaces where it is cut. */
export function cutText(text: string, most: number): string {
  if (text.length <= most && rowsOf(text) <= Math.ceil(most / LETTERS_A_ROW) + 1) return text;
  const flat = text.replace(/\s+/g, ' ').slice(0, most);
  const end = flat.lastIndexOf(' ');
  return `${(end > most * 0.6 ? flat.slice(0, end) : flat).trimEnd()} …`;
}

/**
 * Cuts the lines of sections, all to the same length, so that `most` rows hold them: a title is two
 * rows. Nothing is left out, only shortened.
 */
export function fitLines<S extends { readonly title: string; readonly lines: readonly string[] }>(
  sections: readonly S[],
  most: number,
): FittedLines<S> {
  let fitted: FittedLines<S> = { sections, rows: 0, isCut: false };
  for (const limit of LIMITS) {
    const cut = sections.map((section) => ({
      ...section,
      lines: section.lines.map((line) => cutText(line, limit)),
    }));
    const rows = cut.reduce(
      (sum, { lines }) => sum + 2 + lines.reduce((all, line) => all + rowsOf(line), 0),
      0,
    );
    const isCut = cut.some(({ lines }, s) =>
      lines.some((line, at) => line !== sections[s]!.lines[at]),
    );
    fitted = { sections: cut, rows, isCut };
    if (rows <= most) break;
  }
  return fitted;
}
