import { STAGE_WORDS, type StageId } from '../stages/stage.ts';
import { formatQuantity } from '../units/format.ts';
import { type FoldedWord, foldedWords } from './fold-words.ts';
import type { SearchFact, SearchPiece, SearchWhy, SnippetPart } from './search-piece.ts';
import type { AmountRange, SearchTerm } from './search-query.ts';

/** Reasons that are shown of one job, and letters around a hit. */
const MOST_WHYS = 4;
const AROUND = 48;

/** Words that must stand side by side, the last one perhaps only begun. */
interface Wanted {
  readonly words: readonly string[];
  readonly isWhole: boolean;
}

interface Hit {
  readonly from: number;
  readonly to: number;
}

/**
 * Why a job answers a search: for each term the first piece or fact that does, pieces with several
 * terms once. At most four.
 */
export function whyFound(
  terms: readonly SearchTerm[],
  pieces: readonly SearchPiece[],
  facts: readonly SearchFact[],
): readonly SearchWhy[] {
  const hits = new Map<SearchPiece, Hit[]>();
  const whys: SearchWhy[] = [];
  for (const term of terms) {
    const fact = facts.find((one) => answers(term, one));
    if (fact !== undefined) {
      whys.push(whyOfFact(fact));
      continue;
    }
    const wanted = wantedOf(term);
    if (wanted === null) continue;
    const found = firstPiece(pieces, wanted);
    if (found !== null) hits.set(found.piece, [...(hits.get(found.piece) ?? []), ...found.hits]);
  }
  for (const [piece, at] of hits) {
    const { place, refId, label, text } = piece;
    whys.push({ place, refId, label, parts: snippet(text, at) });
  }
  return whys.slice(0, MOST_WHYS);
}

function wantedOf(term: SearchTerm): Wanted | null {
  if (term.kind === 'text') return { words: term.words, isWhole: term.isPhrase };
  if (term.kind === 'stage' && term.amps === null && term.volts === null) {
    return { words: term.orWords, isWhole: true };
  }
  if (term.kind === 'liquid' && term.is === 'yes') return { words: ['liquid'], isWhole: true };
  if (term.kind === 'comeback') return { words: ['comeback'], isWhole: false };
  return null;
}

function firstPiece(
  pieces: readonly SearchPiece[],
  wanted: Wanted,
): { piece: SearchPiece; hits: Hit[] } | null {
  for (const piece of pieces) {
    const words = foldedWords(piece.text);
    const found = hitsIn(words, wanted);
    if (found.length > 0) return { piece, hits: found };
    // A serial number is found by its last digits and without its dashes, so all of it is shown.
    const compact = words.map(({ word }) => word).join('');
    if (piece.refId === 'serial' && compact.includes(wanted.words.join(''))) {
      return { piece, hits: [{ from: 0, to: piece.text.length }] };
    }
  }
  return null;
}

function hitsIn(words: readonly FoldedWord[], { words: wanted, isWhole }: Wanted): Hit[] {
  if (wanted.length === 0) return [];
  const hits: Hit[] = [];
  for (let at = 0; at + wanted.length <= words.length; at += 1) {
    const isHere = wanted.every((word, i) => {
      const here = words[at + i]!.word;
      return !isWhole && i === wanted.length - 1 ? here.startsWith(word) : here === word;
    });
    if (isHere) hits.push({ from: words[at]!.from, to: words[at + wanted.length - 1]!.to });
  }
  return hits;
}

/** The text around the first hit, every hit within told apart. */
function snippet(text: string, hits: readonly Hit[]): readonly SnippetPart[] {
  const sorted = [...hits].sort((a, b) => a.from - b.from);
  const first = sorted[0]!;
  let from = first.from <= AROUND ? 0 : beginOfWord(text, first.from - AROUND);
  if (from < first.from && isLowHalf(text, from)) from += 1;
  const rough = first.to + AROUND;
  const to = rough >= text.length ? text.length : Math.max(first.to, endOfWord(text, rough));
  const parts: SnippetPart[] = [];
  const put = (piece: string, isHit: boolean) => {
    const plain = piece.replace(/\s+/gu, ' ');
    if (plain !== '') parts.push({ text: plain, isHit });
  };
  let at = from;
  if (from > 0) put('… ', false);
  for (const hit of sorted) {
    if (hit.from < at || hit.to > to) continue;
    put(text.slice(at, hit.from), false);
    put(text.slice(hit.from, hit.to), true);
    at = hit.to;
  }
  put(text.slice(at, to), false);
  if (to < text.length) put(' …', false);
  return parts;
}

const isLowHalf = (text: string, at: number): boolean => /[\udc00-\udfff]/.test(text.charAt(at));
const beginOfWord = (text: string, at: number): number => {
  const blank = text.slice(at).search(/\s/u);
  return blank < 0 || blank > AROUND / 2 ? at : at + blank + 1;
};
const endOfWord = (text: string, at: number): number => {
  const blank = text.slice(0, at).search(/\s\S*$/u);
  const end = blank < at - AROUND / 2 ? at : blank;
  return isLowHalf(text, end) ? end - 1 : end;
};

/** Whether a fact answers a term by itself. */
export function answers(term: SearchTerm, fact: SearchFact): boolean {
  if (term.kind === 'stage') {
    return (
      fact.kind === 'stage' &&
      fact.word === term.stage &&
      isWithin(fact.amount, term.amps) &&
      isWithin(fact.volts, term.volts)
    );
  }
  if (term.kind === 'amount') {
    if (fact.kind === 'stage') {
      const value = term.unit === 'A' ? fact.amount : term.unit === 'V' ? fact.volts : null;
      return value !== null && isWithin(value, term.range);
    }
    return QUANTITY_OF[term.unit].includes(fact.kind) && isWithin(fact.amount, term.range);
  }
  if (term.kind !== 'rail') return false;
  const isNamed = term.name.every((word) => ` ${fact.word}`.includes(` ${word}`));
  if (!isNamed) return false;
  if (term.verdict !== null) {
    // With an amount too the reading that names the verdict must lie in it.
    if (fact.kind !== 'rail' || fact.verdict !== term.verdict) return false;
    return true;
  }
  return (
    term.range !== null &&
    QUANTITY_OF[term.range.unit].includes(fact.kind) &&
    isWithin(fact.amount, term.range.range)
  );
}

/** Kinds of reading that are in a unit. */
export const QUANTITY_OF: Readonly<Record<'A' | 'V' | 'Ω', readonly SearchFact['kind'][]>> = {
  A: ['amps'],
  V: ['volts', 'diode'],
  Ω: ['ohms'],
};

/** Whether a value lies in a range; everything lies in none. Null lies in no range. */
export function isWithin(value: number | null, range: AmountRange | null): boolean {
  if (range === null) return true;
  if (value === null) return false;
  const { low, high, isOpen } = range;
  // Typed decimals and stored doubles differ in their last bit.
  const slack = (bound: number) => (isOpen ? 0 : Math.abs(bound) * 1e-9);
  if (low !== null && (isOpen ? value <= low : value < low - slack(low))) return false;
  return high === null || (isOpen ? value < high : value <= high + slack(high));
}

function whyOfFact(fact: SearchFact): SearchWhy {
  const hit = (text: string): SnippetPart => ({ text, isHit: true });
  const plain = (text: string): SnippetPart => ({ text, isHit: false });
  if (fact.kind === 'stage') {
    const parts = [hit(STAGE_WORDS[fact.word as StageId] ?? fact.word)];
    if (fact.amount !== null) {
      parts.push(plain(' at '), hit(formatQuantity(fact.amount, 'A', null, { digits: 3 })));
    }
    if (fact.volts !== null) {
      parts.push(plain(', '), hit(formatQuantity(fact.volts, 'V', null, { digits: 3 })));
    }
    return { place: 'runs', refId: fact.refId, label: 'Run', parts };
  }
  if (fact.kind === 'rail') {
    const parts = [plain(`${fact.word.trim()}: `), hit(fact.verdict)];
    return { place: 'readings', refId: fact.refId, label: 'Rail', parts };
  }
  const unit = fact.kind === 'ohms' ? 'Ω' : fact.kind === 'amps' ? 'A' : 'V';
  const value = formatQuantity(fact.amount, unit, null, {});
  const parts = [plain(`${fact.word.trim() || 'reading'}: `), hit(value)];
  return { place: 'readings', refId: fact.refId, label: 'Reading', parts };
}
