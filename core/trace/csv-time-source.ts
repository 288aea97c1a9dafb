import { type ColumnContent, isAdvancing, type SeenTable } from './csv-columns.ts';
import type { TraceFileOptions } from './csv-options.ts';
import { listColumns, pickColumn, pickScale } from './csv-pick.ts';
import { badTraceFile } from './csv-trouble.ts';

/** Where the times of a file come from. */
export type TimeSource =
  | { readonly kind: 'rate'; readonly rateHz: number }
  /** A column of numbers; `scale` makes seconds of them. */
  | {
      readonly kind: 'number';
      readonly column: number;
      readonly scale: number;
      /** Whether the numbers stand inside other text, as a rule. */
      readonly isWrapped: boolean;
    }
  /** A clock in one column or split over several; `fractionScale` null = digits after the point. */
  | {
      readonly kind: 'clock';
      readonly column: number;
      readonly date: number | null;
      readonly fraction: number | null;
      readonly fractionScale: number | null;
    };

const MOST = 0.8;

/** Finds the times of a file by what was said, then by headings, then by what the cells hold. */
export function findTimeSource(
  table: SeenTable,
  options: TraceFileOptions,
  rateHz: number | null,
  notes: string[],
): TimeSource {
  if (options.rateHz !== undefined) return { kind: 'rate', rateHz: options.rateHz };
  const { headings, contents } = table;
  if (options.time !== undefined) {
    const column = pickColumn(headings, options.time, '--time');
    return contents[column]!.clocks + contents[column]!.dates > MOST
      ? clockAt(table, column)
      : numberAt(table, column, options, notes);
  }
  const indexes = [...headings.keys()];
  const isNumber = (i: number) =>
    contents[i]!.numbers + contents[i]!.wrapped > MOST && contents[i]!.values.length > 0;
  const clock = indexes.find((i) => contents[i]!.clocks > MOST);
  const named = indexes.filter((i) => headings[i]!.meaning === 'time' && isNumber(i));
  const number =
    named.find((i) => isAdvancing(contents[i]!)) ?? (clock === undefined ? named[0] : undefined);
  if (number !== undefined) return numberAt(table, number, options, notes);
  if (clock !== undefined) return clockAt(table, clock);
  // Milliseconds without a clock beside them are the time itself.
  const fraction = indexes.find((i) => headings[i]!.meaning === 'fraction' && isNumber(i));
  if (fraction !== undefined) return numberAt(table, fraction, options, notes);
  // A header without rows still names the column.
  const empty = indexes.find((i) => headings[i]!.meaning === 'time' || contents[i]!.dates > MOST);
  if (empty !== undefined) return numberAt(table, empty, options, notes);
  if (rateHz !== null) {
    notes.push(`no time column: ${rateHz} samples a second, as the lines above the numbers say`);
    return { kind: 'rate', rateHz };
  }
  const first = indexes.find((i) => isNumber(i) && contents[i]!.quantity !== 'other');
  if (first !== undefined && isTimeUnnamed(table, first)) {
    notes.push(`column ${first + 1} taken as the time, because its numbers only go up`);
    return numberAt(table, first, options, notes);
  }
  throw badTraceFile(
    'No column can be told to be the time',
    `header, column for time (there are ${listColumns(headings)})`,
    'Name it with --time COLUMN, or say --rate-hz N for evenly spaced samples.',
  );
}

/** Whether a column that nothing names is a time: its numbers advance and it is no counter. */
function isTimeUnnamed({ headings, contents, hasHeader }: SeenTable, column: number): boolean {
  const content = contents[column]!;
  if (!isAdvancing(content) || content.quantity !== null) return false;
  if (!hasHeader) return contents.length > 1;
  return headings[column]!.meaning === null && content.values.some((v) => !Number.isInteger(v));
}

function numberAt(
  { headings, contents }: SeenTable,
  column: number,
  options: TraceFileOptions,
  notes: string[],
): TimeSource {
  const isWrapped = contents[column]!.wrapped > 0.5;
  if (options.timeUnit !== undefined) {
    const scale = pickScale(options.timeUnit, 'time', '--time-unit');
    return { kind: 'number', column, scale, isWrapped };
  }
  const { unit } = headings[column]!;
  const stamp = stampScale(contents[column]!);
  if (unit?.quantity === 'time') return { kind: 'number', column, scale: unit.scale, isWrapped };
  if (stamp !== null) return { kind: 'number', column, scale: stamp, isWrapped };
  const scale = likelyScale(contents[column]!);
  if (scale !== 1) {
    const word = scale === 1e-3 ? 'milliseconds' : 'microseconds';
    notes.push(`times without a unit taken as ${word}, by their steps; say --time-unit if not`);
  }
  return { kind: 'number', column, scale, isWrapped };
}

/** Seconds, milliseconds, microseconds or nanoseconds since 1970, by size; null when none of them. */
function stampScale({ values }: ColumnContent): number | null {
  const size = Math.abs(values[0] ?? 0);
  if (size >= 1e17) return 1e-9;
  if (size >= 1e14) return 1e-6;
  if (size >= 1e11) return 1e-3;
  return size >= 1e8 ? 1 : null;
}

/** Whole numbers that climb by 20 or more a row are no seconds on a bench (30 and 60 may be). */
function likelyScale({ values }: ColumnContent): number {
  if (values.some((value) => !Number.isInteger(value))) return 1;
  const steps: number[] = [];
  for (let i = 1; i < values.length; i += 1) {
    const step = values[i]! - values[i - 1]!;
    if (step > 0) steps.push(step);
  }
  steps.sort((a, b) => a - b);
  const usual = steps[steps.length >>> 1] ?? 0;
  if (usual < 20 || [30, 60, 300, 600, 900, 1800, 3600].includes(usual)) return 1;
  return usual < 5000 ? 1e-3 : 1e-6;
}

/** A clock column with the date and the fraction of a second that stand in columns of their own. */
function clockAt({ headings, contents, hasHeader }: SeenTable, column: number): TimeSource {
  const indexes = [...headings.keys()];
  const isDate = contents[column]!.dates > MOST;
  const other = indexes.find(
    (i) => i !== column && contents[i]![isDate ? 'clocks' : 'dates'] > MOST,
  );
  const clock = isDate ? (other ?? column) : column;
  const date = isDate ? (other === undefined ? null : column) : (other ?? null);
  const isWhole = (i: number) =>
    contents[i]!.numbers > MOST && contents[i]!.values.every((v) => v >= 0 && v < 1e9);
  const plain = indexes.filter((i) => contents[i]!.numbers > MOST);
  const fraction = hasHeader
    ? indexes.find((i) => headings[i]!.meaning === 'fraction' && isWhole(i))
    : // Without names: date, time, fraction, and then at least volts and amps.
      plain.length >= 3 && plain[0] === clock + 1 && contents[clock + 1]!.values.every(isMilli)
      ? clock + 1
      : undefined;
  if (fraction === undefined) {
    return { kind: 'clock', column: clock, date, fraction: null, fractionScale: null };
  }
  const scale = headings[fraction]!.unit?.scale ?? null;
  const { values } = contents[fraction]!;
  // `.25` is a part of a second whatever the heading says.
  const isPart = values.some((v) => !Number.isInteger(v)) && values.every((v) => v < 1);
  const fractionScale = isPart ? 1 : (scale ?? (values.length > 0 ? digitScale(values) : 1e-3));
  return { kind: 'clock', column: clock, date, fraction, fractionScale };
}

function isMilli(value: number): boolean {
  return value >= 0 && value < 1000 && (Number.isInteger(value) || value < 1);
}

function digitScale(values: readonly number[]): number {
  const most = values.reduce((a, b) => Math.max(a, b), 0);
  return most < 1000 ? 1e-3 : most < 1e6 ? 1e-6 : 1e-9;
}
