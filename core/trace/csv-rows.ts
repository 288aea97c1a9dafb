import { readClock } from './csv-clock.ts';
import { splitFields } from './csv-fields.ts';
import type { TraceLayout } from './csv-layout.ts';
import {
  isMissing,
  type NumberStyle,
  readCellNumber,
  readPlainCount,
  readPlainNumber,
  readWrappedNumber,
} from './csv-number.ts';
import type { ValueColumn } from './csv-readings.ts';
import { readRegulation } from './csv-regulation.ts';
import { isComment } from './csv-separator.ts';
import { createTimeLine, type FileTime, type TimeLine } from './csv-time-line.ts';
import { badTraceFile, placeInFile } from './csv-trouble.ts';
import { readFunctionOrUnit } from './csv-unit.ts';
import { type Sample, TICKS_PER_SECOND } from './sample.ts';

/** A row that was left out. */
export interface RejectedRow {
  /** Line of the file, from 1. */
  readonly row: number;
  readonly why: string;
}

/** What became of the rows. */
export interface RowCounts {
  readonly samples: number;
  readonly rejected: number;
  /** The first rows that were left out. */
  readonly firstRejected: readonly RejectedRow[];
}

/** Reads the rows of a file whose layout is known. */
export interface RowReader {
  /** Takes a line; `row` is its number in the file, from 1. */
  read(line: string, row: number): void;
  /** Ends a file of so many lines. Throws `bad-trace-file` when no row became a sample. */
  finish(lines: number): RowCounts;
}

const KEPT_REJECTED = 20;
/** What loggers write in front of the figures under their rows. */
const SUMMARY =
  /^(avg|average|mean|max|maximum|min|minimum|std\w*|st\.? ?dev\w*|sum|total|count|peak|rms|median|summary|statistics?|mittelwert|moyenne|range|p-?p|pk-?pk|end( of .*)?)\.?:?$/i;

/** A reader of rows; `seen` are the first lines, by which a repeated header is known. */
export function createRowReader(
  layout: TraceLayout,
  seen: readonly string[],
  use: (sample: Sample) => void,
): RowReader {
  const { separator, fields, time, volts, amps, watts, regulation, output, headings } = layout;
  const style: NumberStyle = { decimalComma: layout.decimalComma };
  const heads = new Set(
    layout.headerLine === null
      ? []
      : seen.slice(layout.headerLine, layout.firstLine).map((line) => bare(line)),
  );
  const firstRejected: RejectedRow[] = [];
  let rejected = 0;
  let samples = 0;
  const counted = (sample: Sample): void => {
    samples += 1;
    use(sample);
  };
  const timeLine: TimeLine | null = time.kind === 'rate' ? null : createTimeLine(time, counted);
  let rated = 0;
  let lastVolts: number | null = null;

  const place = (row: number, column: number) => placeInFile(row, column, headings?.[column]);
  const value = (cells: string[], from: ValueColumn | null, row: number): number | null => {
    if (from === null) return null;
    const cell = cells[from.column]!;
    let number = readPlainNumber(cell, style);
    let scale = from.scale;
    if (number === undefined) {
      const found =
        readCellNumber(cell, style) ??
        (from.isWrapped ? readWrappedNumber(cell, style) : undefined);
      if (found === undefined) throw notANumber(cell, place(row, from.column));
      number = found.value;
      if (found.unit !== null) scale = found.unit.scale;
    }
    if (from.unit !== null) {
      const unit = readFunctionOrUnit(cells[from.unit]!);
      if (layout.areApart && unit !== null && unit.quantity !== from.quantity) return null;
      scale = unit?.scale ?? scale;
    }
    if (Number.isNaN(number)) return null;
    return scaled(number, scale);
  };
  const timeOf = (cells: string[], row: number): FileTime => {
    if (time.kind === 'clock') return clockTime(cells, row);
    if (time.kind === 'parts' || time.kind === 'digits') return dayTime(cells, row);
    const column = time.kind === 'number' ? time.column : 0;
    const cell = cells[column]!;
    const isWrapped = time.kind === 'number' && time.isWrapped;
    let scale = time.kind === 'number' ? time.scale : 1;
    let seconds = readPlainCount(cell, style);
    if (seconds === undefined) {
      const found =
        readCellNumber(cell, style) ?? (isWrapped ? readWrappedNumber(cell, style) : undefined);
      if (found === undefined || Number.isNaN(found.value)) {
        throw notATime(cell, place(row, column));
      }
      seconds = found.value;
      if (found.unit?.quantity === 'time') scale = found.unit.scale;
    }
    return { seconds: seconds * scale, isLocal: false, isTimeOfDay: false };
  };
  const dayTime = (cells: string[], row: number): FileTime => {
    const read = (column: number): number => {
      const part = readPlainCount(cells[column]!, style);
      if (part === undefined) throw notATime(cells[column]!, place(row, column));
      return part;
    };
    if (time.kind === 'parts') {
      const minutes = read(time.hour) * 60 + read(time.minute);
      return { seconds: minutes * 60 + read(time.column), isLocal: true, isTimeOfDay: true };
    }
    const digits = read(time.kind === 'digits' ? time.column : 0);
    const minutes = Math.floor(digits / 10_000) * 60 + (Math.floor(digits / 100) % 100);
    return { seconds: minutes * 60 + (digits % 100), isLocal: true, isTimeOfDay: true };
  };
  const clockTime = (cells: string[], row: number): FileTime => {
    if (time.kind !== 'clock') throw notATime('', place(row, 0));
    const read = (column: number) => {
      const cell = cells[column]!;
      const clock = readClock(time.isDotted ? cell.replace('.', ':').replace('.', ':') : cell);
      if (clock === null) throw notATime(cells[column]!, place(row, column));
      return clock;
    };
    const clock = read(time.column);
    const date = time.date === null ? null : read(time.date);
    let seconds = clock.seconds + (date?.seconds ?? 0);
    if (time.fraction !== null) {
      const cell = cells[time.fraction]!;
      const part = readPlainCount(cell, style);
      if (part === undefined) throw notANumber(cell, place(row, time.fraction));
      seconds += part * (time.fractionScale ?? 1);
    }
    const isTimeOfDay = date === null && !clock.hasDate;
    return { seconds, isLocal: !clock.hasOffset, isTimeOfDay };
  };

  const reject = (row: number, why: string): void => {
    rejected += 1;
    if (firstRejected.length < KEPT_REJECTED) firstRejected.push({ row, why });
  };

  return {
    read(line, row) {
      if (line === '') return;
      // Rows of numbers, nearly all there are, need none of what follows.
      const isWords = !isDigit(line.charCodeAt(0));
      if (isWords && (isComment(line) || heads.has(bare(line)))) return;
      const cells = splitFields(line, separator);
      if (cells.length !== fields) {
        if (cells.length === 0 || (cells.length === 1 && cells[0] === '')) return;
        reject(row, `${cells.length} cells instead of ${fields}`);
        return;
      }
      if (isWords && SUMMARY.test(cells[0]!)) {
        reject(row, 'a summary and no sample');
        return;
      }
      let v = value(cells, volts, row);
      if (layout.areApart) {
        if (v !== null) lastVolts = v;
        v = lastVolts;
      }
      const a = amps === null ? perVolt(value(cells, watts, row), v) : value(cells, amps, row);
      // Volts read in turn go with the amps after them: a row of their own is no sample.
      if (layout.areApart && a === null) return;
      const told = regulation === null ? null : readRegulation(cells[regulation]!);
      const outputOn = output === null ? (told === 'off' ? false : null) : isOn(cells[output]!);
      const readings = { volts: v, amps: a, regulation: told, outputOn };
      if (time.kind === 'rate') {
        counted({ tick: Math.round((rated * TICKS_PER_SECOND) / time.rateHz), ...readings });
        rated += 1;
        return;
      }
      timeLine!.push(timeOf(cells, row), readings, () => place(row, timeColumn(layout)));
    },
    finish(lines) {
      timeLine?.finish();
      if (samples === 0) {
        const column = timeColumn(layout);
        throw badTraceFile(
          rejected === 0
            ? 'The file has 0 rows of samples'
            : 'Every row has too many or too few cells',
          firstRejected[0] === undefined
            ? place(lines + 1, column)
            : place(firstRejected[0].row, column),
          'Export the run again, or check that the file is the right one.',
        );
      }
      return { samples, rejected, firstRejected };
    },
  };
}

/** Applies a decimal factor to the digits, not to the double: 123.4 mA is 0.1234 A to the last bit. */
function scaled(value: number, scale: number): number {
  if (scale === 1) return value;
  const text = String(value);
  return text.includes('e') ? value * scale : Number(`${text}e${Math.round(Math.log10(scale))}`);
}

function isDigit(code: number): boolean {
  return code >= 48 && code <= 57;
}

/** A line without blanks, quotes and case: a repeated header is seldom repeated to the letter. */
function bare(line: string): string {
  return line.replace(/[\s"]/g, '').toLowerCase();
}

function perVolt(watts: number | null, volts: number | null): number | null {
  if (watts === null || volts === null) return null;
  if (Math.abs(volts) >= 0.05) return watts / volts;
  return watts === 0 ? 0 : null;
}

function isOn(cell: string): boolean | null {
  if (/^(on|1|true)$/i.test(cell)) return true;
  return /^(off|0|false)$/i.test(cell) ? false : null;
}

function timeColumn({ time }: TraceLayout): number {
  return time.kind === 'rate' ? 0 : time.column;
}

function shown(cell: string): string {
  return cell.length > 40 ? `${cell.slice(0, 40)}...` : cell;
}

function notANumber(cell: string, where: string) {
  return badTraceFile(
    `"${shown(cell)}" is not a number`,
    where,
    'Correct or delete that row, or name the right column with --volts and --amps.',
  );
}

function notATime(cell: string, where: string) {
  const what = isMissing(cell) ? 'The time is missing' : `"${shown(cell)}" is not a time`;
  return badTraceFile(
    what,
    where,
    'Correct or delete that row, or name the right column with --time.',
  );
}
