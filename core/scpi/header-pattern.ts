/** One word of a header pattern: its two spellings, and whether it may be left out or numbered. */
interface PatternNode {
  readonly short: string;
  readonly long: string;
  readonly optional: boolean;
  readonly numbered: boolean;
}

/** A command's header as declared, ready to be matched. */
export interface HeaderPattern {
  readonly declared: string;
  readonly isQuery: boolean;
  readonly isCommon: boolean;
  readonly nodes: readonly PatternNode[];
}

/**
 * Reads a declaration such as `MEASure[:SCALar]:VOLTage[:DC]?` or `OUTPut#[:STATe]`: capitals
 * are the short form, brackets mark words that may be left out, `#` a numeric suffix, `?` a
 * query (SCPI-1999 vol. 1, 5.1 and 6.2.5).
 */
export function headerPattern(declared: string): HeaderPattern {
  const isQuery = declared.endsWith('?');
  const body = isQuery ? declared.slice(0, -1) : declared;
  const isCommon = body.startsWith('*');
  const nodes: PatternNode[] = [];
  for (const found of body.matchAll(/(\[)?:?(\*?[A-Za-z]\w*)(#)?:?\]?/g)) {
    const word = found[2] ?? '';
    nodes.push({
      short: word.replace(/[a-z]/g, ''),
      long: word.toUpperCase(),
      optional: found[1] === '[',
      numbered: found[3] === '#',
    });
  }
  return { declared, isQuery, isCommon, nodes };
}

/**
 * Matches a header (no leading colon, no question mark) word by word: exactly the short or
 * exactly the long form, in any case. Gives the numeric suffixes of the numbered words in
 * order, 1 where none was sent or the word was left out; null when it does not match.
 */
export function matchHeader(pattern: HeaderPattern, header: string): number[] | null {
  return matchFrom(pattern.nodes, header.toUpperCase().split(':'), 0, 0);
}

function matchFrom(
  nodes: readonly PatternNode[],
  words: readonly string[],
  atNode: number,
  atWord: number,
): number[] | null {
  const node = nodes[atNode];
  if (!node) return atWord === words.length ? [] : null;
  const suffix = suffixOf(node, words[atWord]);
  if (suffix !== null) {
    const rest = matchFrom(nodes, words, atNode + 1, atWord + 1);
    if (rest) return node.numbered ? [suffix, ...rest] : rest;
  }
  if (!node.optional) return null;
  const rest = matchFrom(nodes, words, atNode + 1, atWord);
  return rest && node.numbered ? [1, ...rest] : rest;
}

function suffixOf(node: PatternNode, word: string | undefined): number | null {
  if (word === undefined) return null;
  if (word === node.short || word === node.long) return 1;
  if (!node.numbered) return null;
  const found = /^(.*?)(\d+)$/.exec(word);
  return found && (found[1] === node.short || found[1] === node.long) ? Number(found[2]) : null;
}

/** Tells whether a word is exactly the short or the long form of a declared one (`MAXimum`). */
export function isForm(declared: string, word: string): boolean {
  const upper = word.toUpperCase();
  return upper === declared.toUpperCase() || upper === declared.replace(/[a-z]/g, '');
}
