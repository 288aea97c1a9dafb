import { parse } from 'csv-parse/sync';
import { WakelineError } from '../errors.ts';
import { type BoardModel, type KnownGood, usualThrough } from './board-model.ts';
import { type BoardWarning, checkBoard } from './check-board.ts';
import { writePoints } from './probe-points.ts';
import { COLUMN_WORDS, matchColumns, RAIL_COLUMNS } from './rail-columns.ts';
import { type RailRow, readRailRow } from './rail-row.ts';
import { tableDelimiter } from './table-delimiter.ts';

/** A table as typed or pasted, read into a board. */
export interface ReadRailTable {
  readonly board: BoardModel;
  readonly warnings: readonly BoardWarning[];
  /** Table row of each rail, from 1. */
  readonly rows: readonly number[];
}

interface TableRow {
  readonly row: number;
  readonly cells: readonly string[];
}

/**
 * Reads a table of rails as typed, pasted from a spreadsheet (tabs) or from CSV (commas or
 * semicolons). The first row may name the columns in any usual words; without names the order is
 * rail, volts, tolerance, fed by, through, enabled by, states, points, ohms, diode, core. Empty rows
 * and rows that begin with # are skipped; `# stated input V,19.5` and its like fill the board's facts.
 * @throws WakelineError `bad-input` naming row and column.
 */
export function readRailTable(text: string, name: string): ReadRailTable {
  const rows = splitRows(text);
  const body = rows.filter(({ cells }) => !cells[0]?.startsWith('#'));
  const first = body[0];
  if (first === undefined) {
    throw new WakelineError({
      code: 'bad-input',
      what: 'The table is empty',
      where: 'row 1',
      todo: 'Type or paste one rail a row: name, volts, tolerance, fed by.',
    });
  }
  const heading = matchColumns(first.cells, first.row);
  const dataRows = heading === null ? body : body.slice(1);
  const columns = heading ?? RAIL_COLUMNS;
  const raw = dataRows.map(({ row, cells }) => readRailRow(cells, columns, row));
  const board: BoardModel = { name, rails: raw.map((rail) => settle(rail, raw)), ...facts(rows) };
  const rowOf = (index: number) => dataRows[index]?.row ?? index + 1;
  const guessed = raw.flatMap(({ name: rail, nominalV, isFromName }, index) =>
    isFromName
      ? [{ row: rowOf(index), text: `Volts of ${rail} taken from its name: ${nominalV} V.` }]
      : [],
  );
  return {
    board,
    warnings: [...guessed, ...checkBoard(board, rowOf)],
    rows: dataRows.map(({ row }) => row),
  };
}

/** Writes a board as CSV that `readRailTable` reads back into the same board. */
export function writeRailTable(board: BoardModel): string {
  const good = (known: KnownGood | null) =>
    known === null ? '' : `${known.median} ± ${known.spread} (${known.count})`;
  const factRows = FACTS.flatMap(([key, word]) => {
    const value = board[key];
    return value === null
      ? []
      : [[`# ${word}`, value === true ? 'yes' : value === false ? 'no' : String(value)]];
  });
  const rows = board.rails.map((rail) => [
    rail.name,
    String(rail.nominalV),
    `${Number((rail.tolerance * 100).toPrecision(12))}%`,
    rail.fedBy.join(' + '),
    rail.through,
    rail.enabledBy.join(' + '),
    rail.states.join(' + '),
    writePoints(rail.points),
    good(rail.expectedOhms),
    good(rail.expectedDiodeV),
    rail.isCore ? 'yes' : 'no',
  ]);
  const all = [...factRows, RAIL_COLUMNS.map((column) => COLUMN_WORDS[column]), ...rows];
  return `${all.map((cells) => cells.map(quote).join(',')).join('\n')}\n`;
}

const FACTS = [
  ['statedInputV', 'stated input V'],
  ['statedLimitA', 'stated limit A'],
  ['runningA', 'running draw A'],
  ['runsFlat', 'runs flat'],
] as const;

function splitRows(text: string): TableRow[] {
  const records: unknown = parse(text, {
    delimiter: tableDelimiter(text),
    bom: true,
    info: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    trim: true,
  });
  return (records as { record: string[]; info: { lines: number } }[])
    .map(({ record, info }) => ({ row: info.lines, cells: record }))
    .filter(({ cells }) => cells.some((cell) => cell !== ''));
}

function settle(
  { isFromName: _, ...rail }: RailRow,
  all: readonly RailRow[],
): BoardModel['rails'][number] {
  const feedV = all.filter(({ name }) => rail.fedBy.includes(name)).map(({ nominalV }) => nominalV);
  return { ...rail, through: rail.through ?? usualThrough(rail.nominalV, feedV) };
}

function facts(rows: readonly TableRow[]): Omit<BoardModel, 'name' | 'rails'> {
  const find = (word: string) => {
    const row = rows.find(({ cells }) => cells[0]?.toLowerCase() === `# ${word.toLowerCase()}`);
    return { row: row?.row ?? 0, text: row?.cells[1] ?? '' };
  };
  const number = (word: string): number | null => {
    const { row, text } = find(word);
    if (text === '') return null;
    const value = Number(text.replace(',', '.'));
    if (Number.isFinite(value) && value >= 0) return value;
    throw new WakelineError({
      code: 'bad-input',
      what: `"${text}" is no number for ${word}`,
      where: `row ${row}`,
      todo: 'Type a plain number, or delete the row.',
    });
  };
  const flat = find('runs flat').text.toLowerCase();
  return {
    statedInputV: number('stated input V'),
    statedLimitA: number('stated limit A'),
    runningA: number('running draw A'),
    runsFlat: flat === '' ? null : /^(y|yes|1|true)$/.test(flat),
  };
}

function quote(cell: string): string {
  return /[",\n;\t]/.test(cell) ? `"${cell.replaceAll('"', '""')}"` : cell;
}
