import { type ColumnContent, isCounter, type SeenTable } from './csv-columns.ts';
import type { TraceFileOptions } from './csv-options.ts';
import { listColumns, pickColumn, pickScale } from './csv-pick.ts';
import type { TimeSource } from './csv-time-source.ts';
import { badTraceFile } from './csv-trouble.ts';
import type { FileUnit } from './csv-unit.ts';

/** A column of readings. */
export interface ValueColumn {
  readonly column: number;
  readonly quantity: 'volts' | 'amps' | 'watts';
  /** Factor to V, A or W for cells without a unit of their own. */
  readonly scale: number;
  /** Column with the unit of each row, or null. */
  readonly unit: number | null;
  /** Whether the numbers stand inside other text, as a rule. */
  readonly isWrapped: boolean;
}

/** The columns of readings in a file. */
export interface ReadingColumns {
  readonly volts: ValueColumn | null;
  readonly amps: ValueColumn | null;
  /** Power, used with volts when there are no amps. */
  readonly watts: ValueColumn | null;
  readonly regulation: number | null;
  readonly output: number | null;
  /** Whether volts and amps stand in rows of their own, read in turn. */
  readonly areApart: boolean;
}

type Quantity = 'volts' | 'amps' | 'watts';
const MOST = 0.8;

/** Finds the columns of readings by what was said, then by headings, units and, last, by place. */
export function findReadings(
  table: SeenTable,
  options: TraceFileOptions,
  time: TimeSource,
  preamble: FileUnit | null,
  notes: string[],
): ReadingColumns {
  const { headings, contents } = table;
  const taken = new Set<number>(timeColumns(time));
  const free = [...headings.keys()].filter((i) => !taken.has(i));
  const find = (quantity: Quantity): number | null => {
    const named = quantity === 'watts' ? undefined : options[quantity];
    if (named !== undefined) return pickColumn(headings, named, `--${quantity}`);
    const able = free.filter((i) => isFor(table, i, quantity));
    const order = (i: number) =>
      8 * headings[i]!.rank + 4 * Number(isCounter(contents[i]!)) + Number(isIdle(contents[i]!));
    const other = quantity === 'volts' ? ampsChannel() : null;
    const apart = (i: number) => Number(other !== null && channelOf(headings[i]!.text) !== other);
    able.sort((a, b) => apart(a) - apart(b) || order(a) - order(b) || a - b);
    if (able.length > 1 && quantity !== 'watts') {
      notes.push(
        `${able.length} columns look like ${quantity}; column ${able[0]! + 1} is used (--${quantity} takes another)`,
      );
    }
    return able[0] ?? null;
  };
  let amps: number | null = null;
  // The volts are those of the channel that the amps are of.
  const ampsChannel = () => (amps === null ? null : channelOf(headings[amps]!.text));
  amps = find('amps');
  let volts = find('volts');
  const watts = find('watts');
  if (volts === null && amps === null && watts === null && !table.hasHeader) {
    [volts, amps] = byPlace(table, free, notes);
  }
  const unnamed = amps === null && preamble?.quantity === 'amps' ? onlyUnnamed(table, free) : null;
  if (unnamed !== null) amps = unnamed;
  if (amps === null && (watts === null || volts === null)) {
    throw badTraceFile(
      'No column can be told to be the amps',
      `header, column for amps (there are ${listColumns(headings)})`,
      'Name it with --amps COLUMN (its heading, or its number from 1).',
    );
  }
  if (amps === null) notes.push('no amps column: amps are watts divided by volts');
  const column = (index: number | null, quantity: Quantity): ValueColumn | null => {
    if (index === null) return null;
    const found = valueColumn(table, index, quantity, options);
    return index === unnamed && options[`${quantity as 'amps'}Unit`] === undefined
      ? { ...found, scale: preamble!.scale }
      : found;
  };
  return {
    volts: column(volts, 'volts'),
    amps: column(amps, 'amps'),
    watts: amps === null ? column(watts, 'watts') : null,
    regulation: free.find((i) => contents[i]!.regulations > MOST) ?? regulationByName(table, free),
    areApart: volts !== null && amps !== null && areApart(table, volts, amps),
    output: free.find((i) => headings[i]!.meaning === 'output' && isSwitch(table, i)) ?? null,
  };
}

/** The one column of numbers that no heading tells of, or null. */
function onlyUnnamed({ headings, contents }: SeenTable, free: readonly number[]): number | null {
  const able = free.filter((i) => {
    const { meaning } = headings[i]!;
    return (meaning === null || meaning === 'value') && contents[i]!.numbers > MOST;
  });
  return able.length === 1 ? able[0]! : null;
}

/** Whether each of two columns is filled only in the rows where the other is not, or they are one. */
function areApart({ contents }: SeenTable, volts: number, amps: number): boolean {
  if (volts === amps) return true;
  const both = contents[volts]!.filledRows.filter((row) =>
    contents[amps]!.filledRows.includes(row),
  );
  return both.length === 0 && contents[volts]!.filled > 0 && contents[amps]!.filled > 0;
}

/** The number of the channel in a heading (`CH2 A`, `I3`), or null. */
function channelOf(heading: string): string | null {
  return /(?:^|[^\d.])(\d{1,2})(?!\d)/.exec(heading)?.[1] ?? null;
}

/** A channel that nothing hangs on shows 0 in every row. */
function isIdle({ values }: ColumnContent): boolean {
  return values.length > 0 && values.every((value) => value === 0);
}

function timeColumns(time: TimeSource): number[] {
  if (time.kind === 'rate') return [];
  if (time.kind === 'number' || time.kind === 'digits') return [time.column];
  if (time.kind === 'parts') return [time.hour, time.minute, time.column];
  return [time.column, time.date ?? -1, time.fraction ?? -1];
}

function isFor({ headings, contents }: SeenTable, i: number, quantity: Quantity): boolean {
  const { meaning } = headings[i]!;
  const content = contents[i]!;
  const isReading = content.numbers + content.wrapped > 0 || content.units < MOST;
  if (!isReading || content.clocks > MOST || content.regulations > MOST) return false;
  if (meaning === quantity) return content.quantity === null || content.quantity === quantity;
  if (meaning !== null && meaning !== 'value') return false;
  if (contents[i]!.units > MOST) return false;
  return content.quantity === quantity || unitColumn(contents, i, quantity) !== null;
}

/**
 * The column that tells the unit or function of each row of column `i`: the one after it, the one
 * before it, else the only one of the file.
 */
function unitColumn(contents: SeenTable['contents'], i: number, quantity: Quantity): number | null {
  const isUnits = (at: number) => (contents[at]?.units ?? 0) > MOST && contents[at]!.numbers < MOST;
  const all = [...contents.keys()].filter(isUnits);
  const at = [i + 1, i - 1].find(isUnits) ?? (all.length === 1 ? all[0]! : null);
  return at !== null && contents[at]!.quantities.has(quantity) ? at : null;
}

/** Without header and units the order is that of the file format itself: time, volts, amps. */
function byPlace(
  { contents }: SeenTable,
  free: readonly number[],
  notes: string[],
): [number | null, number | null] {
  const all = free.filter((i) => contents[i]!.numbers > MOST && contents[i]!.quantity === null);
  const numbers = all.length > 2 ? all.filter((i) => !isCounter(contents[i]!)) : all;
  if (numbers.length === 0 || numbers.length > 2) return [null, null];
  if (numbers.length === 1) {
    notes.push(`no header: column ${numbers[0]! + 1} taken as amps`);
    return [null, numbers[0]!];
  }
  const [volts, amps] = numbers as [number, number];
  notes.push(`no header: column ${volts + 1} taken as volts, column ${amps + 1} as amps`);
  return [volts, amps];
}

function valueColumn(
  { headings, contents }: SeenTable,
  column: number,
  quantity: Quantity,
  options: TraceFileOptions,
): ValueColumn {
  const said = quantity === 'watts' ? undefined : options[`${quantity}Unit`];
  const { unit } = headings[column]!;
  const ofHeading = unit?.quantity === quantity ? unit.scale : 1;
  return {
    column,
    quantity,
    scale: said === undefined ? ofHeading : pickScale(said, quantity, `--${quantity}-unit`),
    unit: said === undefined ? unitColumn(contents, column, quantity) : null,
    isWrapped: contents[column]!.wrapped > 0.5,
  };
}

function isSwitch({ contents }: SeenTable, i: number): boolean {
  return contents[i]!.switches > MOST;
}

function regulationByName({ headings, contents }: SeenTable, free: readonly number[]) {
  const isWords = (i: number) => contents[i]!.numbers < MOST;
  return free.find((i) => headings[i]!.meaning === 'regulation' && isWords(i)) ?? null;
}
