import { type FileUnit, readFileUnit } from './csv-unit.ts';

/**
 * Readings at or above this are an instrument's way to say "over range": 9.9E37 by SCPI-1999
 * volume 1, 7.2.1, and 1E9 by some meters.
 */
const OVER_RANGE = 1e9;
const MISSING_WORDS = new Set(
  (
    '|-|--|---|----|.|n/a|na|nan|null|none|nil|no data|inf|-inf|+inf|infinity|-infinity|ol|-ol|+ol|' +
    'o.l|0l|o.l.|ovld|ovl|ovrng|overload|over|overflow|over range|overrange|?|??|???|---.--|--.--|' +
    '#n/a|invalid|error|err'
  ).split('|'),
);
const NUMBER = String.raw`[-+\u2212]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][-+]?\d+)?`;
const WITH_UNIT = new RegExp(`^(${NUMBER})\\s*([^\\d\\s+.,-][^\\d]*)$`);
const WRAPPED = new RegExp(
  `(?<![\\w.,+-])(${NUMBER})(?:\\s*([a-z\\u00b5\\u03bc\\ufffd]+))?(?![\\w])`,
  'i',
);

const GROUPED = /^[-+\u2212]?\d{1,3}([ \u00a0\u2009\u202f'\u2019]\d{3})+([.,]\d*)?$/;

/** How the numbers of a file are written. */
export interface NumberStyle {
  readonly decimalComma: boolean;
}

/** A number found in a cell, with the unit that was glued to it, if any. */
export interface CellNumber {
  /** `NaN` when the cell says that there was no reading (empty, overload words, 9.9E37). */
  readonly value: number;
  readonly unit: FileUnit | null;
}

const MISSING: CellNumber = { value: Number.NaN, unit: null };

/** Whether a cell says in words, or by being empty, that there was no reading. */
export function isMissing(cell: string): boolean {
  return MISSING_WORDS.has(cell.toLowerCase());
}

/** The number of a cell that holds nothing else; `undefined` when it holds something else. */
export function readPlainNumber(cell: string, style: NumberStyle): number | undefined {
  const first = cell.charCodeAt(0);
  // Digits, sign, point, comma: this keeps out '', '0x10', 'Infinity' and blanks.
  if (!((first >= 48 && first <= 57) || (first >= 43 && first <= 46) || first === 0x2212)) {
    return undefined;
  }
  let text = cell;
  if (style.decimalComma) text = withPoint(text);
  else if (first === 0x2212 || text.includes(',')) text = withoutThousands(text);
  const value = Number(text);
  if (Number.isNaN(value)) {
    return GROUPED.test(cell) ? readPlainNumber(withoutBlanks(cell), style) : undefined;
  }
  const second = text.charCodeAt(1) | 32;
  // Number() also reads 0x10, 0b1 and 0o7, which no instrument writes.
  if (second === 120 || second === 98 || second === 111) return undefined;
  // Adding 0 turns the -0 of a meter at rest into 0.
  return Math.abs(value) >= OVER_RANGE ? Number.NaN : value + 0;
}

/** A time or counter: like `readPlainNumber` but large numbers are themselves, not "over range". */
export function readPlainCount(cell: string, style: NumberStyle): number | undefined {
  const plain = GROUPED.test(cell) ? withoutBlanks(cell) : cell;
  const text = style.decimalComma ? withPoint(plain) : withoutThousands(plain);
  return /^[-+]?(\d+\.?\d*|\.\d+)(e[-+]?\d+)?$/i.test(text) ? Number(text) : undefined;
}

/**
 * The number of a cell with its glued unit (`231mA`, `+1.8E-03 VDC`, `-0.006V`); `undefined` when
 * the cell is neither that, nor a plain number, nor a way to say that nothing was read.
 */
export function readCellNumber(cell: string, style: NumberStyle): CellNumber | undefined {
  const plain = readPlainNumber(cell, style);
  if (plain !== undefined) return { value: plain, unit: null };
  if (isMissing(cell)) return MISSING;
  const match = WITH_UNIT.exec(cell);
  if (match === null) return undefined;
  const unit = readFileUnit(match[2]!);
  const value = readPlainNumber(match[1]!, style);
  return unit === null || value === undefined ? undefined : { value, unit };
}

/** The one number inside other text (`V1 1.350`, `I=0.231 A`), for columns that are written so. */
export function readWrappedNumber(cell: string, style: NumberStyle): CellNumber | undefined {
  const match = WRAPPED.exec(cell.replace(/[=:]/g, ' '));
  if (match === null) return undefined;
  const value = readPlainNumber(match[1]!, style);
  if (value === undefined) return undefined;
  return { value, unit: match[2] === undefined ? null : readFileUnit(match[2]) };
}

/** `12 003,5`, `12'003.5`: thousands set apart by a (narrow, unbroken) blank or an apostrophe. */
function withoutBlanks(cell: string): string {
  return cell.replace(/[ \u00a0\u2009\u202f'\u2019]/g, '');
}

function withPoint(text: string): string {
  // In a file with decimal commas a point groups thousands, unless there is no comma at all.
  const plain = text.includes(',') ? text.replaceAll('.', '').replace(',', '.') : text;
  return plain.replace('\u2212', '-');
}

function withoutThousands(text: string): string {
  const plain = text.replace('\u2212', '-');
  return /^[-+]?[1-9]\d{0,2}(,\d{3})+(\.|$)/.test(plain) ? plain.replaceAll(',', '') : plain;
}
