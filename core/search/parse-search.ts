import { WAITING_FOR, type WaitingFor } from '../job/waiting-for.ts';
import type { StageId } from '../stages/stage.ts';
import { isTagCode, plainTagCode } from '../tags/tag-code.ts';
import { foldForSearch, wordsOf } from './fold-words.ts';
import { type ReadRange, readRange } from './read-range.ts';
import { dayAfter, daySpan, isLikeDay } from './search-days.ts';
import type { ParsedSearch, SearchTerm, SearchVerdict, TextTerm } from './search-query.ts';
import { splitSearch, type TypedWord } from './split-search.ts';

/** Names of stages as they are typed, longest first. */
const STAGES: readonly (readonly [string, StageId])[] = [
  ['flat low draw', 'flat-low'],
  ['flat high draw', 'flat-high'],
  ['flat low', 'flat-low'],
  ['flat high', 'flat-high'],
  ['no draw', 'no-draw'],
  ['output off', 'off'],
  ['current limit', 'limited'],
  ['fell back', 'fell-back'],
  ['limited', 'limited'],
  ['stepping', 'stepping'],
  ['stalled', 'stalled'],
  ['running', 'running'],
  ['creeping', 'creeping'],
  ['cycling', 'cycling'],
];
const VERDICTS: Readonly<Record<string, SearchVerdict>> = {
  present: 'present',
  low: 'low',
  high: 'high',
  missing: 'missing',
  dead: 'missing',
  'back-fed': 'back-fed',
  backfed: 'back-fed',
  shorted: 'shorted',
  short: 'shorted',
  open: 'open',
};
const WRONG_DAY = 'Write a day as 2026-11-25 or a month as 2026-11.';

interface Found {
  readonly term: SearchTerm;
  readonly next: number;
  /** The term before was the rail's name. */
  readonly takesLast?: boolean;
}
type Wrong = Exclude<ParsedSearch, { readonly ok: true }>;

/**
 * Reads what a person types to find jobs; every term must hold. Words and "phrases in quotes";
 * names of stages, alone or with amounts (`stalled 0.2..0.3 A`); amounts by themselves (`>5 V`);
 * rails with what they were judged to be (`main rail low`) or with amounts; `liquid`, `no liquid`;
 * days (`2026-11`, `since 2026-11-01`, `2026-10..2026-11`, `today`); `#12`, the code of a bag tag,
 * `waiting jobs`, `waiting for parts`, `comebacks`. `today` is the shop's day as `YYYY-MM-DD`. Never
 * throws: whatever means nothing else is text, and only an amount or a date can be wrong.
 */
export function parseSearch(search: string, today: string): ParsedSearch {
  const words = splitSearch(search);
  const terms: SearchTerm[] = [];
  let at = 0;
  while (at < words.length) {
    const read =
      readDays(words, at, today) ??
      readStage(words, at) ??
      readRail(words, at, terms) ??
      readAlone(words, at) ??
      readPlain(words, at);
    if ('ok' in read) return read;
    if (read.takesLast === true) terms.pop();
    if (read.term.kind !== 'text' || read.term.words.length > 0) terms.push(read.term);
    at = read.next;
  }
  return { ok: true, terms };
}

const folded = (word: TypedWord | undefined): string =>
  word === undefined || word.isQuoted ? '' : foldForSearch(word.text);

const spanOf = (words: readonly TypedWord[], at: number, next: number) => ({
  from: words[at]!.from,
  to: words[next - 1]!.to,
});

const asWrong = (read: ReadRange & { readonly ok: false }): Wrong => read;

function readDays(words: readonly TypedWord[], at: number, today: string): Found | Wrong | null {
  const word = folded(words[at]);
  const days = (first: string | null, last: string | null, next: number): Found => ({
    term: { kind: 'days', first, last, ...spanOf(words, at, next) },
    next,
  });
  if (word === 'today') return days(today, today, at + 1);
  if (word === 'yesterday') return days(dayAfter(today, -1), dayAfter(today, -1), at + 1);
  const [, sign = '', rest = ''] = /^(>=|<=|[<>≥≤]?)(.*)$/u.exec(word) ?? [];
  const isSpoken = word === 'since' || word === 'before' || word === 'until';
  const text = isSpoken ? folded(words[at + 1]) : rest;
  const [low = '', high] = text.split(/\.\.+|…/u);
  if (!isLikeDay(low)) return null;
  const next = at + (isSpoken ? 2 : 1);
  const lowFrom = words[next - 1]!.to - text.length;
  const wrong = (from: number, day: string): Wrong => ({
    ok: false,
    at: from,
    what: `No calendar has the day ${day}`,
    todo: WRONG_DAY,
  });
  const first = daySpan(low);
  if (first === null) return wrong(lowFrom, low);
  if (high === undefined) {
    if (word === 'since' || sign === '>=' || sign === '≥') return days(first.first, null, next);
    if (sign === '>') return days(dayAfter(first.last, 1), null, next);
    if (word === 'until' || sign === '<=' || sign === '≤') return days(null, first.last, next);
    if (word === 'before' || sign === '<') return days(null, dayAfter(first.first, -1), next);
    return days(first.first, first.last, next);
  }
  const last = daySpan(high);
  const highFrom = words[next - 1]!.to - high.length;
  if (last === null) return wrong(highFrom, high === '' ? 'after the dots' : high);
  if (last.last < first.first) {
    return {
      ok: false,
      at: highFrom,
      what: 'These days end before they begin',
      todo: `Turn them round: ${high}..${low}.`,
    };
  }
  return days(first.first, last.last, next);
}

function readStage(words: readonly TypedWord[], at: number): Found | Wrong | null {
  const named = STAGES.find(([name]) =>
    name.split(' ').every((part, i) => folded(words[at + i]) === part),
  );
  if (named === undefined) return null;
  const [name, stage] = named;
  let next = at + name.split(' ').length;
  const orWords = name.split(' ');
  let amps = null;
  let volts = null;
  for (;;) {
    const isLinked = folded(words[next]) === 'at';
    const read = readRange(words, isLinked ? next + 1 : next, true);
    if (read === null) break;
    if (!read.ok) return asWrong(read);
    if (read.unit === 'Ω' || (read.unit === 'A' ? amps : volts) !== null) break;
    if (read.unit === 'A') amps = read.range;
    else volts = read.range;
    next = read.next;
  }
  const term = { kind: 'stage', stage, amps, volts, orWords } as const;
  return { term: { ...term, ...spanOf(words, at, next) }, next };
}

/** A rail with a verdict or an amount; its name is the word before "rail" or the one after it. */
function readRail(
  words: readonly TypedWord[],
  at: number,
  before: readonly SearchTerm[],
): Found | Wrong | null {
  if (!/^rails?$/u.test(folded(words[at]))) return null;
  const last = before.at(-1);
  const isBefore =
    last?.kind === 'text' && last.to <= words[at]!.from && words[at - 1]?.from === last.from;
  let next = at + 1;
  let name: readonly string[] = isBefore ? (last as TextTerm).words : [];
  const verdictAt = (i: number): SearchVerdict | undefined =>
    Object.hasOwn(VERDICTS, folded(words[i])) ? VERDICTS[folded(words[i])] : undefined;
  const after = words[next];
  if (!isBefore && after !== undefined && verdictAt(next) === undefined) {
    const isNumber = readRange(words, next, true);
    if (isNumber === null) {
      name = wordsOf(after.text);
      next += 1;
    }
  }
  const verdict = verdictAt(next) ?? null;
  if (verdict !== null) next += 1;
  const read = readRange(words, next, true);
  if (read !== null && !read.ok) return asWrong(read);
  const isAmount = read !== null && read.unit !== 'A';
  if (verdict === null && !isAmount) return null;
  const range = isAmount ? { unit: read.unit as 'V' | 'Ω', range: read.range } : null;
  if (isAmount) next = read.next;
  const first = isBefore ? at - 1 : at;
  return {
    term: { kind: 'rail', name, verdict, range, ...spanOf(words, first, next) },
    next,
    takesLast: isBefore,
  };
}

/** Terms of one or two fixed words, amounts by themselves, job numbers and tags. */
function readAlone(words: readonly TypedWord[], at: number): Found | Wrong | null {
  const word = folded(words[at]);
  const after = folded(words[at + 1]);
  const term = <T extends object>(fields: T, count: number) => ({
    term: { ...fields, ...spanOf(words, at, at + count) } as unknown as SearchTerm,
    next: at + count,
  });
  if (word === 'liquid') return term({ kind: 'liquid', is: 'yes' }, 1);
  if (word === 'no' && after === 'liquid') return term({ kind: 'liquid', is: 'no' }, 2);
  if (word === 'comeback' || word === 'comebacks') return term({ kind: 'comeback' }, 1);
  if ((word === 'open' || word === 'waiting' || word === 'closed') && /^jobs?$/u.test(after)) {
    return term({ kind: 'state', state: word }, 2);
  }
  const waitingFor = folded(words[at + 2]) as WaitingFor;
  if (word === 'waiting' && after === 'for' && WAITING_FOR.includes(waitingFor)) {
    return term({ kind: 'waiting', waitingFor }, 3);
  }
  const number = /^#(\d{1,9})$/u.exec(word)?.[1];
  if (number !== undefined) return term({ kind: 'number', number: Number(number) }, 1);
  if (isTagCode(word)) return term({ kind: 'tag', code: plainTagCode(word) }, 1);
  const halves = `${word}${after}`;
  if (/^\d{4}$/u.test(word) && /^\d{4}$/u.test(after) && isTagCode(halves)) {
    return term({ kind: 'tag', code: halves }, 2);
  }
  const read = readRange(words, at);
  if (read === null) return null;
  if (!read.ok) return asWrong(read);
  const { unit, range, next } = read;
  return { term: { kind: 'amount', unit, range, ...spanOf(words, at, next) }, next };
}

function readPlain(words: readonly TypedWord[], at: number): Found {
  const word = words[at]!;
  const term: TextTerm = {
    kind: 'text',
    words: wordsOf(word.text),
    isPhrase: word.isQuoted,
    from: word.from,
    to: word.to,
  };
  return { term, next: at + 1 };
}
