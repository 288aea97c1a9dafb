import { type Separator, splitFields } from './csv-fields.ts';
import { type Heading, readHeading } from './csv-headings.ts';
import { readFileUnit } from './csv-unit.ts';

/** The headings of a file and where its numbers can begin. */
export interface Header {
  /** One text a column; names and units of two rows are put together. */
  readonly headings: readonly string[];
  /** Index of the line with the names. */
  readonly line: number;
  /** Index of the first line after the header. */
  readonly next: number;
}

const COMMENT_MARK = /^\s*(#|\/\/|%|!|')+\s*/;

/**
 * Finds the header above the line `before`, nearest first: a line of `fields` cells, none a
 * number, at least one a quantity that we know or one of `wanted` (names that the user gave).
 * It may stand in a comment. Null when there is none.
 */
export function findHeader(
  lines: readonly string[],
  before: number,
  fields: number,
  separator: Separator,
  wanted: readonly string[],
): Header | null {
  let unknown: Header | null = null;
  for (let at = Math.min(before, lines.length) - 1; at >= 0; at -= 1) {
    const cells = headerCells(lines[at]!, fields, separator);
    if (cells === null) continue;
    if (isUnitRow(cells)) {
      const names = at === 0 ? null : headerCells(lines[at - 1]!, fields, separator);
      if (names?.some((name) => isKnown(readHeading(name))) && !isUnitRow(names)) {
        const headings = names.map((name, i) => withUnit(name, cells[i]!));
        return { headings, line: at - 1, next: at + 1 };
      }
    }
    if (cells.some((cell) => isKnown(readHeading(cell)) || wanted.includes(cell.toLowerCase()))) {
      return { headings: cells, line: at, next: at + 1 };
    }
    // Names that nobody knows still head their columns, when they stand right above the numbers.
    if (unknown === null && at === before - 1 && !COMMENT_MARK.test(lines[at]!)) {
      unknown = { headings: cells, line: at, next: at + 1 };
    }
  }
  return unknown;
}

/**
 * A line that heads at least two readings or times but not as many cells as the rows have: the
 * rows lack columns, or have more than the header tells. Null when there is none.
 */
export function findUnfitHeader(
  lines: readonly string[],
  before: number,
  separator: Separator,
): { line: number; headings: readonly string[] } | null {
  for (let at = before - 1; at >= 0; at -= 1) {
    const headings = splitFields(lines[at]!.replace(COMMENT_MARK, ''), separator);
    if (headings.length < 2 || headings.some((cell) => /^[-+]?[\d.,:/-]+$/.test(cell))) continue;
    const meanings = headings.map((heading) => readHeading(heading).meaning);
    const readings = meanings.filter((m) => m === 'volts' || m === 'amps' || m === 'watts');
    if (readings.length > 0 && (readings.length > 1 || meanings.includes('time'))) {
      return { line: at, headings };
    }
  }
  return null;
}

function isKnown(heading: Heading): boolean {
  const { meaning } = heading;
  return meaning !== null && meaning !== 'index' && meaning !== 'unit' && meaning !== 'output';
}

function withUnit(name: string, unit: string): string {
  const bare = unit.replace(/^[([{]\s*|\s*[)\]}]$/g, '');
  return bare === '' || readHeading(name).unit !== null ? name : `${name} (${bare})`;
}

function isUnitRow(cells: readonly string[]): boolean {
  const units = cells.map((cell) => cell.replace(/^[([{]\s*|\s*[)\]}]$/g, ''));
  const filled = units.filter((unit) => unit !== '');
  // `t,V,A` is a row of names: no unit of time is called t.
  return filled.length > 0 && filled.every((unit) => readFileUnit(unit) !== null);
}

/** The line as `fields` cells without numbers, or null. */
function headerCells(line: string, fields: number, separator: Separator): string[] | null {
  const text = line.replace(COMMENT_MARK, '');
  if (text.trim() === '') return null;
  for (const cells of waysToCut(text, separator)) {
    while (cells.length > fields && cells.at(-1) === '') cells.pop();
    // Writers that end each row with a separator often leave it out of the header.
    if (cells.length === fields - 1 && separator !== 'blanks') cells.push('');
    if (cells.length !== fields) continue;
    if (cells.some((cell) => /^[-+]?[\d.,:/-]+$/.test(cell))) return null;
    if (cells.every((cell) => cell === '')) return null;
    return cells;
  }
  return null;
}

function waysToCut(text: string, separator: Separator): string[][] {
  if (separator !== 'blanks') return [splitFields(text, separator)];
  const glued = text.trim().replace(/\s+([([][^)\]]*[)\]])/g, '\u00a0$1');
  return [
    splitFields(text, 'blanks'),
    glued.split(/[ \t]+/).map((cell) => cell.replace('\u00a0', ' ')),
    text.trim().split(/\t|\s{2,}/),
    text.split(',').map((cell) => cell.trim()),
  ];
}
