import { readClock } from './csv-clock.ts';
import { type Separator, splitFields } from './csv-fields.ts';
import { isMissing, readCellNumber, readWrappedNumber } from './csv-number.ts';
import { readRegulation } from './csv-regulation.ts';
import { readFunctionOrUnit } from './csv-unit.ts';

/** How the rows of a file are cut into cells, and which of the first lines are rows of numbers. */
export interface RowShape {
  readonly separator: Separator;
  readonly decimalComma: boolean;
  /** Cells in a row of numbers. */
  readonly fields: number;
  /** Index of the first row of numbers among the lines looked at. */
  readonly firstRow: number;
  /** The rows of numbers among the lines looked at, cut into cells. */
  readonly rows: readonly (readonly string[])[];
}

/** `-----  -----`, `|====|====|`: a rule under the headings. */
const RULE = /^[\s|+:,;]*[-=_]{3}[-=_\s|+:,;]*$/;

/** A line before or between the numbers that is for people only. */
export function isComment(line: string): boolean {
  return /^\s*(#|\/\/|%|!|')/.test(line) || RULE.test(line);
}

const SEPARATORS: readonly Separator[] = ['\t', ';', ',', '|', 'blanks'];

/**
 * Finds how a file is cut, from its first lines (comments and blank lines replaced by ''). Each
 * separator is tried; the one under which most cells of alike rows are numbers, times or units
 * wins. Null when no two lines, or the only line, look like numbers.
 */
export function findRowShape(lines: readonly string[]): RowShape | null {
  let best: RowShape | null = null;
  let bestScore = 0;
  for (const separator of SEPARATORS) {
    for (const decimalComma of [false, true]) {
      if (decimalComma && !lines.some((line) => /\d,\d/.test(line))) continue;
      if (decimalComma && separator === ',' && !lines.some((line) => line.includes('"'))) continue;
      const { shape, score } = tryShape(lines, separator, decimalComma);
      if (shape !== null && score > bestScore * 1.0001) {
        best = shape;
        bestScore = score;
      }
    }
  }
  return best;
}

interface SeenRow {
  readonly at: number;
  readonly cells: string[];
  readonly likeness: number;
}

function medianLikeness(rows: readonly SeenRow[]): number {
  const sorted = rows.map(({ likeness }) => likeness).sort((a, b) => a - b);
  return sorted[sorted.length >>> 1] ?? 0;
}

function tryShape(
  lines: readonly string[],
  separator: Separator,
  decimalComma: boolean,
): { shape: RowShape | null; score: number } {
  const byCount = new Map<number, SeenRow[]>();
  lines.forEach((line, at) => {
    if (line === '') return;
    const cells = splitFields(line, separator);
    const likeness = rowLikeness(cells, decimalComma, separator);
    if (likeness <= 0.5) return;
    const group = byCount.get(cells.length) ?? [];
    group.push({ at, cells, likeness });
    byCount.set(cells.length, group);
  });
  let shape: RowShape | null = null;
  let score = 0;
  for (const [fields, group] of byCount) {
    const usual = medianLikeness(group);
    // A row of names with numbers in it (`x-axis,1,2`) is less alike than the rows below it.
    const alike = group.filter(({ likeness }) => likeness >= 0.75 * usual);
    const sum = alike.reduce((total, { likeness }) => total + likeness * likeness, 0);
    // One cell a row is what every wrong separator gives as well.
    const weighed = sum * (fields === 1 ? 0.3 : 1);
    if (weighed <= score) continue;
    score = weighed;
    const rows = alike.map(({ cells }) => cells);
    shape = { separator, decimalComma, fields, firstRow: alike[0]!.at, rows };
  }
  return { shape, score };
}

/** Share of the filled cells that look like something that a logger writes. */
function rowLikeness(
  cells: readonly string[],
  decimalComma: boolean,
  separator: Separator,
): number {
  let filled = 0;
  let alike = 0;
  let numbers = 0;
  for (const cell of cells) {
    if (cell === '') continue;
    filled += 1;
    const number = readCellNumber(cell, { decimalComma });
    if (number !== undefined && !isMissing(cell)) {
      // A point in a file of decimal commas, or grouped thousands, is possible but unlikely.
      // `12,003` between semicolons is rather twelve and a bit than twelve thousand.
      const isOdd = decimalComma
        ? /\.\d/.test(cell)
        : separator !== ',' && /^[-+]?\d+,\d+$/.test(cell);
      alike += isOdd ? 0.4 : 1;
      numbers += 1;
    } else if (readClock(cell) !== null) {
      alike += 1;
      numbers += 1;
    } else if (number !== undefined || isKnownWord(cell)) {
      alike += 1;
    } else if (cells.length > 1 && readWrappedNumber(cell, { decimalComma }) !== undefined) {
      alike += 0.7;
      numbers += 1;
    }
  }
  return numbers === 0 ? 0 : alike / filled;
}

function isKnownWord(cell: string): boolean {
  return (
    readRegulation(cell) !== null || readFunctionOrUnit(cell) !== null || /^(on|off)$/i.test(cell)
  );
}
