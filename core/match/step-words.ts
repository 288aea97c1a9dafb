import { formatQuantity } from '../units/format.ts';
import type { StepPair } from './match-steps.ts';
import { isTelling, SMALL_LEVEL, SMALL_S } from './telling.ts';

/** How times and levels of two runs are brought together. */
export interface StepScale {
  /** Seconds of each run at the common moment. */
  readonly zeros: { readonly first: number; readonly run: number };
  /** Factor from amps to what is compared. */
  readonly scale: { readonly first: number; readonly run: number };
  readonly unit: 'A' | 'W';
}

const NUMBERS = [
  'first',
  'second',
  'third',
  'fourth',
  'fifth',
  'sixth',
  'seventh',
  'eighth',
  'ninth',
  'tenth',
] as const;

/** `second step 1.8 s later, 40 mA lower`; nothing when neither is worth a word. */
export function stepWords(
  { first, run, firstAt }: StepPair,
  { zeros, scale, unit }: StepScale,
): string[] {
  if (first === null || run === null) return [];
  const words: string[] = [];
  const there = first.atS - zeros.first;
  const later = run.atS - zeros.run - there;
  if (isTelling(later, there, SMALL_S)) {
    words.push(`${Math.abs(later).toFixed(1)} s ${later > 0 ? 'later' : 'earlier'}`);
  }
  const level = first.toA * scale.first;
  const more = run.toA * scale.run - level;
  if (isTelling(more, level, SMALL_LEVEL[unit])) {
    words.push(`${amount(Math.abs(more), unit)} ${more > 0 ? 'higher' : 'lower'}`);
  }
  return words.length === 0 ? [] : [`${ordinal(firstAt)} step ${words.join(', ')}`];
}

/** A step that only one of the runs has. */
export function unmatchedStepWords(
  { first, run, firstAt, runAt }: StepPair,
  { zeros, scale, unit }: StepScale,
): string[] {
  if (first !== null && run === null) {
    const to = amount(first.toA * scale.first, unit);
    return [`no ${ordinal(firstAt)} step (the first run goes to ${to} there)`];
  }
  if (first === null && run !== null) {
    const at = run.atS - zeros.run;
    const [from, to] = [run.fromA, run.toA].map((amps) => amount(amps * scale.run, unit));
    return [`one step more: its ${ordinal(runAt)}, ${from} to ${to} at ${at.toFixed(1)} s`];
  }
  return [];
}

function ordinal(at: number): string {
  return NUMBERS[at] ?? `${at + 1}th`;
}

function amount(value: number, unit: 'A' | 'W'): string {
  return formatQuantity(value, unit, null, { digits: 2 });
}
