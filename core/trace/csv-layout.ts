import { lookAtColumn, type SeenTable } from './csv-columns.ts';
import type { Separator } from './csv-fields.ts';
import { splitFields } from './csv-fields.ts';
import { findHeader, findUnfitHeader } from './csv-header.ts';
import { readHeading } from './csv-headings.ts';
import type { TraceFileOptions } from './csv-options.ts';
import { readPreambleUnit, readRateHz } from './csv-preamble.ts';
import { findReadings, type ReadingColumns } from './csv-readings.ts';
import { findRowShape, isComment, type RowShape } from './csv-separator.ts';
import { findTimeSource, type TimeSource } from './csv-time-source.ts';
import { badTraceFile, placeInFile } from './csv-trouble.ts';

/** All that must be known of a trace file to read its rows. */
export interface TraceLayout extends ReadingColumns {
  readonly separator: Separator;
  readonly decimalComma: boolean;
  readonly fields: number;
  /** Index of the first line that can be a row of numbers. */
  readonly firstLine: number;
  /** One text a column, or null when the file has no header. */
  readonly headings: readonly string[] | null;
  readonly headerLine: number | null;
  readonly time: TimeSource;
  /** What was guessed, in words, for a person to check. */
  readonly notes: readonly string[];
}

/**
 * Works out the layout of a trace file from its first lines. Null when they hold no row of
 * numbers and more lines may follow (`isLast` false). Throws `bad-trace-file` when a column that
 * is needed cannot be told.
 */
export function findLayout(
  lines: readonly string[],
  options: TraceFileOptions,
  isLast: boolean,
): TraceLayout | null {
  if (isLast) return findWholeLayout(lines, options);
  const shape = findRowShape(withoutComments(lines));
  return shape === null ? null : layoutOf(lines, shape, options);
}

/** The layout of a file by all of its lines. Throws `bad-trace-file` also when it has no rows. */
export function findWholeLayout(lines: readonly string[], options: TraceFileOptions): TraceLayout {
  const shape = findRowShape(withoutComments(lines)) ?? shapeByHeader(lines, namesIn(options));
  if (shape === null) throw noRows(lines);
  return layoutOf(lines, shape, options);
}

function withoutComments(lines: readonly string[]): string[] {
  return lines.map((line) => (isComment(line) || /^"?sep=.?"?$/i.test(line) ? '' : line));
}

function namesIn(options: TraceFileOptions): string[] {
  return [options.time, options.volts, options.amps]
    .filter((name) => name !== undefined)
    .map((name) => name.toLowerCase());
}

function layoutOf(
  lines: readonly string[],
  shape: RowShape,
  options: TraceFileOptions,
): TraceLayout {
  const { separator, decimalComma, fields, firstRow, rows } = shape;
  const header = findHeader(lines, firstRow, fields, separator, namesIn(options));
  if (header === null && options.amps === undefined) refuseUnfitHeader(lines, shape);
  const contents = Array.from({ length: fields }, (_, i) => lookAtColumn(rows, i, decimalComma));
  const headings = contents.map((content, i) =>
    readHeading(header === null ? content.label : header.headings[i]!),
  );
  const table: SeenTable = { headings, contents, hasHeader: header !== null };
  const notes: string[] = [];
  const rateHz = options.rateHz ?? readRateHz(lines.slice(0, firstRow), decimalComma);
  const time = findTimeSource(table, options, rateHz, notes);
  const preamble = readPreambleUnit(lines.slice(0, firstRow));
  const readings = findReadings(table, options, time, preamble, notes);
  return {
    separator,
    decimalComma,
    fields,
    firstLine: header?.next ?? firstRow,
    headings: header?.headings ?? null,
    headerLine: header?.line ?? null,
    time,
    ...readings,
    notes,
  };
}

/** A file whose rows are no numbers, or that has none: its header still tells where things stand. */
function shapeByHeader(lines: readonly string[], wanted: readonly string[]): RowShape | null {
  for (const separator of ['\t', ';', ',', '|', 'blanks'] as const) {
    for (let at = 0; at < lines.length; at += 1) {
      const line = lines[at]!.replace(/^\s*[#%]\s*/, '');
      const fields = splitFields(line, separator).length;
      if (fields < 2 || findHeader([line], 1, fields, separator, wanted) === null) continue;
      const known = splitFields(line, separator).map((cell) => readHeading(cell).meaning);
      if (!known.some((meaning) => meaning === 'amps' || meaning === 'volts')) continue;
      return { separator, decimalComma: false, fields, firstRow: at + 1, rows: [] };
    }
  }
  return null;
}

/** Numbers are never put under headings by guess: one cell off, and volts are read as amps. */
function refuseUnfitHeader(lines: readonly string[], { firstRow, separator, fields }: RowShape) {
  const unfit = findUnfitHeader(lines, firstRow, separator);
  if (unfit === null) return;
  const column = Math.min(fields, unfit.headings.length);
  throw badTraceFile(
    `The rows have ${fields} cells and the header in row ${unfit.line + 1} has ${unfit.headings.length}`,
    placeInFile(firstRow + 1, column, unfit.headings[column]),
    'Export the run again, or name the columns by number with --time, --volts and --amps.',
  );
}

function noRows(lines: readonly string[]) {
  const filled = lines.filter((line) => line.trim() !== '').length;
  return badTraceFile(
    filled === 0 ? 'The file is empty' : 'No row of numbers was found',
    filled === 0 ? 'row 1, column 1' : `rows 1 to ${lines.length}, any column`,
    'Give a text file with a row a sample: time, volts and amps, with a header line above.',
  );
}
