import { readClock } from './csv-clock.ts';
import type { Heading } from './csv-headings.ts';
import { isMissing, readCellNumber, readPlainCount, readWrappedNumber } from './csv-number.ts';
import { readRegulation } from './csv-regulation.ts';
import { type FileUnit, readFunctionOrUnit } from './csv-unit.ts';

/** What the first rows of numbers show of one column. */
export interface ColumnContent {
  /** Cells that are not empty. */
  readonly filled: number;
  /** Shares of the filled cells that are numbers (or tell that nothing was read), and so on. */
  readonly numbers: number;
  readonly wrapped: number;
  readonly clocks: number;
  readonly dates: number;
  readonly units: number;
  readonly regulations: number;
  readonly switches: number;
  /** Whether its clocks have points between hours, minutes and seconds. */
  readonly isDotted: boolean;
  /** The quantity that all units found in or as cells agree on. */
  readonly quantity: FileUnit['quantity'] | null;
  /** All quantities that units found in or as cells tell. */
  readonly quantities: ReadonlySet<FileUnit['quantity']>;
  /** The rows, of those looked at, in which it is filled. */
  readonly filledRows: readonly number[];
  /** Its plain numbers in order, as they stand. */
  readonly values: readonly number[];
  /** Text in front of the number in the first wrapped cell (`I` of `I=0.231 A`). */
  readonly label: string;
}

/** What the finders of columns look at. */
export interface SeenTable {
  readonly headings: readonly Heading[];
  readonly contents: readonly ColumnContent[];
  readonly hasHeader: boolean;
}

const DOTTED_CLOCK = /^(?:[01]?\d|2[0-3])\.[0-5]\d\.([0-5]\d)(?:[.,]\d+)?$/;

/** Looks at column `index` of the first rows. */
export function lookAtColumn(
  rows: readonly (readonly string[])[],
  index: number,
  decimalComma: boolean,
): ColumnContent {
  const seen = { filled: 0, numbers: 0, wrapped: 0, clocks: 0, dates: 0, units: 0 };
  let regulations = 0;
  let switches = 0;
  let label = '';
  let dotted = 0;
  const lastParts = new Set<string>();
  const values: number[] = [];
  const quantities = new Set<FileUnit['quantity']>();
  const filledRows: number[] = [];
  for (const [at, row] of rows.entries()) {
    const cell = row[index] ?? '';
    if (cell === '') continue;
    filledRows.push(at);
    seen.filled += 1;
    const dots = DOTTED_CLOCK.exec(cell);
    if (dots !== null) {
      dotted += 1;
      lastParts.add(dots[1]!);
    }
    if (/^(on|off|0|1|true|false)$/i.test(cell)) switches += 1;
    if (readRegulation(cell) !== null) regulations += 1;
    const unit = readFunctionOrUnit(cell);
    if (unit !== null) {
      seen.units += 1;
      quantities.add(unit.quantity);
    }
    const count = readPlainCount(cell, { decimalComma });
    const number = readCellNumber(cell, { decimalComma });
    if (count !== undefined || number !== undefined) {
      seen.numbers += 1;
      if (count !== undefined) values.push(count);
      if (number?.unit) quantities.add(number.unit.quantity);
      continue;
    }
    const clock = readClock(cell);
    if (clock !== null) {
      if (clock.hasTime) seen.clocks += 1;
      else seen.dates += 1;
      continue;
    }
    const wrapped = isMissing(cell) ? undefined : readWrappedNumber(cell, { decimalComma });
    if (wrapped === undefined) continue;
    seen.wrapped += 1;
    values.push(wrapped.value);
    if (wrapped.unit !== null) quantities.add(wrapped.unit.quantity);
    if (label === '') label = cell.replace(/\s*[=:]?\s*[-+]?[\d.,]+(e[-+]?\d+)?\s*\S*$/i, '');
  }
  // `10.15.00` is also a date: what stands last in a date does not change from row to row.
  const isDotted = lastParts.size > 1 && dotted === seen.filled;
  if (isDotted) {
    seen.clocks = dotted;
    seen.dates = 0;
  }
  const share = (count: number) => (seen.filled === 0 ? 0 : count / seen.filled);
  return {
    filled: seen.filled,
    numbers: share(seen.numbers),
    wrapped: share(seen.wrapped),
    clocks: share(seen.clocks),
    dates: share(seen.dates),
    units: share(seen.units),
    regulations: share(regulations),
    switches: share(switches),
    isDotted,
    quantities,
    filledRows,
    quantity: quantities.size === 1 ? [...quantities][0]! : null,
    values,
    label,
  };
}

/** Whether the numbers of a column go up from the first to the last and never down. */
export function isAdvancing(content: ColumnContent): boolean {
  const { values } = content;
  for (let i = 1; i < values.length; i += 1) if (values[i]! < values[i - 1]!) return false;
  return values.length > 0 && (values.length === 1 || values.at(-1)! > values[0]!);
}

/** 1, 2, 3 ...: a count of readings, whatever its heading says. */
export function isCounter({ values }: ColumnContent): boolean {
  return values.length > 2 && values.every((value, i) => value === values[0]! + i);
}
