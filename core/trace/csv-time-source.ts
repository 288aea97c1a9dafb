import { type ColumnContent, isAdvancing, isCounter, type SeenTable } from './csv-columns.ts';
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
      /** Whether points stand between hours, minutes and seconds (`10.15.00`). */
      readonly isDotted: boolean;
    }
  /** A time of day in digits without marks: 101500 is a quarter past ten. */
  | { readonly kind: 'digits'; readonly column: number }
  /** A time of day in columns of their own; `column` holds the seconds. */
  | {
      readonly kind: 'parts';
      readonly hour: number;
      readonly minute: number;
      readonly column: number;
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
  const parts = partsOf(table);
  if (parts !== null) return parts;
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
  const interval = indexes.find(
    (i) => headings[i]!.meaning === 'interval' && isNumber(i) && isConstant(contents[i]!),
  );
  if (interval !== undefined) {
    const scale =
      headings[interval]!.unit?.quantity === 'time' ? headings[interval]!.unit.scale : 1;
    const stepS = contents[interval]!.values[0]! * scale;
    notes.push(`no time column: samples taken ${Number(stepS.toPrecision(6))} s apart`);
    return { kind: 'rate', rateHz: 1 / stepS };
  }
  const numbers = indexes.filter((i) => isNumber(i) && contents[i]!.quantity !== 'other');
  // Without names a count may stand in front of the time.
  const counted =
    !table.hasHeader &&
    numbers.length > 2 &&
    isCounter(contents[numbers[0]!]!) &&
    isAdvancing(contents[numbers[1]!]!);
  const first = numbers[counted ? 1 : 0];
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

/** Hours, minutes and seconds in columns of their own. */
function partsOf({ headings, contents }: SeenTable): TimeSource | null {
  const named = (name: RegExp, below: number) => {
    const at = headings.findIndex(({ text }) => name.test(text.trim()));
    const isPart = contents[at]?.values.every((value) => value >= 0 && value < below) ?? false;
    return at >= 0 && isPart && contents[at]!.numbers > MOST ? at : null;
  };
  const hour = named(/^(hours?|hh?|hr)$/i, 24);
  const minute = named(/^(min(ute)?s?|mm?)$/i, 60);
  const column = named(/^(sec(ond)?s?|ss?)$/i, 61);
  if (hour === null || minute === null || column === null) return null;
  return { kind: 'parts', hour, minute, column };
}

/** `20310401` beside `101500`: date and time in digits without marks. */
function isDigitClock({ headings, contents }: SeenTable, column: number): boolean {
  const isDay = (value: number) => value > 19_000_000 && value < 21_010_000;
  const hasDate = headings.some(
    ({ meaning }, i) =>
      meaning === 'date' && contents[i]!.values.length > 0 && contents[i]!.values.every(isDay),
  );
  const { values } = contents[column]!;
  return (
    hasDate && values.every((v) => v < 240_000 && (v / 100) % 100 < 60 && v % 100 < 60 && v >= 0)
  );
}

function isConstant({ values }: ColumnContent): boolean {
  return values.length > 0 && values[0]! > 0 && values.every((value) => value === values[0]);
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
  if (isDigitClock({ headings, contents, hasHeader: true }, column)) {
    return { kind: 'digits', column };
  }
  const stamp = stampScale(contents[column]!);
  if (unit?.quantity === 'time') return { kind: 'number', column, scale: unit.scale, isWrapped };
  if (stamp !== null) return { kind: 'number', column, scale: stamp, isWrapped };
  if (isDayCount(headings[column]!.text, contents[column]!)) {
    notes.push('times taken as a spreadsheet counts days; say --time-unit if not');
    return { kind: 'number', column, scale: 86_400, isWrapped };
  }
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

/** Days since 1899 with their fraction, as a spreadsheet writes a date that has lost its format. */
function isDayCount(heading: string, { values }: ColumnContent): boolean {
  if (!/date|datum|stamp/i.test(heading) || values.length < 2) return false;
  return values.every(
    (value, i) =>
      value > 20_000 && value < 80_000 && (i === 0 || Math.abs(value - values[i - 1]!) < 0.1),
  );
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
  const { isDotted } = contents[clock]!;
  if (fraction === undefined) {
    return { kind: 'clock', column: clock, date, fraction: null, fractionScale: null, isDotted };
  }
  const scale = headings[fraction]!.unit?.scale ?? null;
  const { values } = contents[fraction]!;
  // `.25` is a part of a second whatever the heading says.
  const isPart = values.some((v) => !Number.isInteger(v)) && values.every((v) => v < 1);
  const fractionScale = isPart ? 1 : (scale ?? (values.length > 0 ? digitScale(values) : 1e-3));
  return { kind: 'clock', column: clock, date, fraction, fractionScale, isDotted };
}

function isMilli(value: number): boolean {
  return value >= 0 && value < 1000 && (Number.isInteger(value) || value < 1);
}

function digitScale(values: readonly number[]): number {
  const most = values.reduce((a, b) => Math.max(a, b), 0);
  return most < 1000 ? 1e-3 : most < 1e6 ? 1e-6 : 1e-9;
}
