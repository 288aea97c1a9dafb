import { parseQuantity } from '../units/parse.ts';
import type { AmountRange, SearchUnit } from './search-query.ts';
import type { TypedWord } from './split-search.ts';

/** A range as it was typed, or what is wrong with it; `next` is the first word after it. */
export type ReadRange =
  | {
      readonly ok: true;
      readonly unit: SearchUnit;
      readonly range: AmountRange;
      readonly next: number;
    }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };

/** A bare or measured amount: sign, digits, and whatever prefix and unit may follow. */
const NUMBER = String.raw`[-\u2212+]?(?:\d+(?:[.,]\d*)?|[.,]\d+)`;
const BETWEEN = new RegExp(`^(${NUMBER}\\S*?)(?:\\.\\.+|…)(\\S*)$`, 'u');
const DASHED = /^(\d+(?:[.,]\d+)?)[-–](\d+(?:[.,]\d+)?)(\D*)$/u;
const COMPARED = new RegExp(`^(>=|<=|[<>≥≤~≈=])(${NUMBER}\\S*)?$`, 'u');
const UNIT_WORD = /^[pnuµμmkKM]?(A|amps?|V|volts?|Ω|Ω|ohms?|R)$/u;
const ENDS: readonly (readonly [RegExp, SearchUnit])[] = [
  [/(a|amps?)$/iu, 'A'],
  [/(v|volts?)$/iu, 'V'],
  [/(Ω|Ω|ohms?|r)$/iu, 'Ω'],
];
/** How far "about" reaches on each side, as a share. */
const ABOUT = 0.1;
const UNITS = 'Write the unit after it: A, V or ohm, as in 0.2..0.3 A or >5 V.';

const wrong = (at: number, what: string, todo: string): ReadRange => ({
  ok: false,
  at,
  what,
  todo,
});

/**
 * Reads an amount range that begins at word `at`: `0.2..0.3 A`, `200..300mA`, `0.2-0.3 A`, `>5 V`,
 * `<= 0.5 ohm`, `~0.23 A` (a tenth either way). With `isPlainTaken` also `0.23 A`, which means about
 * that. Null when no range begins there.
 */
export function readRange(
  words: readonly TypedWord[],
  at: number,
  isPlainTaken = false,
): ReadRange | null {
  const word = words[at];
  if (word === undefined || word.isQuoted) return null;
  const between = BETWEEN.exec(word.text);
  if (between !== null) {
    const [, low = '', high = ''] = between;
    if (high !== '') return readBetween(words, at, low, high, word.to - high.length);
    const next = words[at + 1];
    if (next === undefined || next.isQuoted || !/^[-+\u2212.,\d]/u.test(next.text)) {
      return wrong(
        word.to,
        'The upper end of this range is missing',
        `For no upper end write >${low} A.`,
      );
    }
    return readBetween(words, at + 1, low, next.text, next.from, word.from);
  }
  const dashed = DASHED.exec(word.text);
  if (dashed !== null) {
    const [, low = '', high = '', unit = ''] = dashed;
    const isMeasured = unit !== '' ? UNIT_WORD.test(unit) : isUnit(words[at + 1]);
    if (isMeasured)
      return readBetween(words, at, low, `${high}${unit}`, word.from + low.length + 1);
    return null;
  }
  const compared = COMPARED.exec(word.text);
  if (compared !== null) return readCompared(words, at, compared[1] ?? '', compared[2]);
  if (!isPlainTaken || !new RegExp(`^${NUMBER}`, 'u').test(word.text)) return null;
  if (unitOf(word.text) === null && !isUnit(words[at + 1])) return null;
  const amount = readAmount(words, at, word.text, word.from);
  return amount.ok ? { ...amount, range: about(amount.value) } : amount;
}

const isUnit = (word: TypedWord | undefined): boolean =>
  word !== undefined && !word.isQuoted && UNIT_WORD.test(word.text);

const unitOf = (text: string): SearchUnit | null =>
  ENDS.find(([end]) => end.test(text))?.[1] ?? null;

type ReadAmount =
  | {
      readonly ok: true;
      readonly unit: SearchUnit;
      readonly value: number;
      readonly next: number;
      /** Prefix and unit as typed, for the other end of a range. */
      readonly suffix: string;
    }
  | (ReadRange & { readonly ok: false });

/** An amount with its unit in the same word or in the next. */
function readAmount(
  words: readonly TypedWord[],
  at: number,
  text: string,
  from: number,
): ReadAmount {
  const own = unitOf(text);
  const after = words[at + 1];
  const joined = own === null && isUnit(after);
  const unit = own ?? (joined ? unitOf(after!.text) : null);
  if (unit === null) {
    return wrong(from + text.length, 'This number has no unit', UNITS) as ReadAmount;
  }
  const typed = joined ? `${text} ${after!.text}` : text;
  const parsed = parseQuantity(typed, unit);
  if (!parsed.ok || parsed.value === null) {
    const where = parsed.ok ? 0 : parsed.at;
    return {
      ok: false,
      at: from + where,
      what: parsed.ok ? 'This is not an amount' : parsed.what,
      todo: parsed.ok ? UNITS : parsed.todo,
    };
  }
  const suffix = typed.replace(new RegExp(`^${NUMBER}`, 'u'), '').trim();
  return { ok: true, unit, value: parsed.value, next: at + (joined ? 2 : 1), suffix };
}

function readBetween(
  words: readonly TypedWord[],
  at: number,
  low: string,
  high: string,
  highFrom: number,
  lowFrom = words[at]!.from,
): ReadRange {
  const top = readAmount(words, at, high, highFrom);
  if (!top.ok) return top;
  const own = unitOf(low);
  if (own !== null && own !== top.unit) {
    return wrong(lowFrom, 'The two ends of this range are in different units', UNITS);
  }
  const bottom = parseQuantity(own === null ? `${low} ${top.suffix}` : low, top.unit);
  if (!bottom.ok || bottom.value === null) {
    return wrong(
      lowFrom + (bottom.ok ? 0 : Math.min(bottom.at, low.length)),
      bottom.ok ? 'This is not an amount' : bottom.what,
      bottom.ok ? UNITS : bottom.todo,
    );
  }
  if (bottom.value > top.value) {
    return wrong(
      highFrom,
      'The upper end of this range is below the lower one',
      `Turn it round: ${high}..${low}.`,
    );
  }
  const range = { low: bottom.value, high: top.value, isOpen: false };
  return { ok: true, unit: top.unit, range, next: top.next };
}

function readCompared(
  words: readonly TypedWord[],
  at: number,
  sign: string,
  own: string | undefined,
): ReadRange | null {
  const word = words[at]!;
  const next = words[at + 1];
  const isApart =
    own === undefined &&
    next !== undefined &&
    !next.isQuoted &&
    new RegExp(`^${NUMBER}`, 'u').test(next.text);
  // A sign by itself is no question: it is left out as text without a letter is.
  if (own === undefined && !isApart) return null;
  const amount = isApart
    ? readAmount(words, at + 1, next.text, next.from)
    : readAmount(words, at, own!, word.to - own!.length);
  if (!amount.ok) return amount;
  const { value, unit } = amount;
  const range: AmountRange =
    sign === '~' || sign === '≈'
      ? about(value)
      : sign === '='
        ? { low: value, high: value, isOpen: false }
        : sign.startsWith('>') || sign === '≥'
          ? { low: value, high: null, isOpen: sign === '>' }
          : { low: null, high: value, isOpen: sign === '<' };
  return { ok: true, unit, range, next: amount.next };
}

const about = (value: number): AmountRange => ({
  low: value - Math.abs(value) * ABOUT,
  high: value + Math.abs(value) * ABOUT,
  isOpen: false,
});
