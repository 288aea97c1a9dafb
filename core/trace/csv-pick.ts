import type { Heading } from './csv-headings.ts';
import { badTraceFile } from './csv-trouble.ts';
import { type FileQuantity, readFileUnit } from './csv-unit.ts';

/**
 * The index of the column that a person named: by its heading (any case, with or without its
 * unit) or by its number from 1. Throws `bad-trace-file` when there is none.
 */
export function pickColumn(headings: readonly Heading[], named: string, flag: string): number {
  const plain = (text: string) => text.trim().toLowerCase();
  const short = (text: string) => plain(text.replace(/[([{<].*$/, ''));
  const wanted = plain(named);
  const exact = headings.findIndex((heading) => plain(heading.text) === wanted);
  if (exact >= 0) return exact;
  const byName = headings.findIndex((heading) => short(heading.text) === wanted);
  if (byName >= 0) return byName;
  const number = Number(named);
  if (Number.isInteger(number) && number >= 1 && number <= headings.length) return number - 1;
  throw badTraceFile(
    `There is no column "${named}"`,
    `header, column "${named}" (given by ${flag})`,
    `Name one of ${listColumns(headings)}.`,
  );
}

/** The columns of a file for a message: `1 "Time", 2 "CH1"`. */
export function listColumns(headings: readonly Heading[]): string {
  return headings
    .slice(0, 20)
    .map(({ text }, i) => (text === '' ? `${i + 1}` : `${i + 1} "${text}"`))
    .join(', ');
}

/** The factor of a unit that a person named. Throws `bad-trace-file` when it is no such unit. */
export function pickScale(named: string, quantity: FileQuantity, flag: string): number {
  const unit = readFileUnit(named);
  if (unit?.quantity === quantity) return unit.scale;
  throw badTraceFile(
    `"${named}" is no unit of ${quantity}`,
    `column for ${quantity} (${flag})`,
    quantity === 'time' ? 'Say s, ms or us.' : 'Say V, mV, A, mA or uA.',
  );
}
