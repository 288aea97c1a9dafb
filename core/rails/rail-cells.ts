import { parse } from 'csv-parse/sync';
import { matchColumns, RAIL_COLUMNS } from './rail-columns.ts';
import { tableDelimiter } from './table-delimiter.ts';

/**
 * What was pasted or opened, as rows of cells in the order of `RAIL_COLUMNS`, unread: what is wrong
 * in a cell is said by `readRailTable`, after it lies in the table. Columns are found by their
 * headings where there are any; rows that begin with # are left out.
 * @throws WakelineError `bad-input` for a heading with an unknown or double column.
 */
export function railCells(text: string): readonly (readonly string[])[] {
  const records: unknown = parse(text, {
    delimiter: tableDelimiter(text),
    bom: true,
    relax_column_count: true,
    relax_quotes: true,
    skip_empty_lines: true,
    trim: true,
  });
  const rows = (records as string[][]).filter(
    (cells) => cells.some((cell) => cell !== '') && !cells[0]?.startsWith('#'),
  );
  const heading = matchColumns(rows[0] ?? [], 1);
  const columns = heading ?? RAIL_COLUMNS;
  return rows
    .slice(heading === null ? 0 : 1)
    .map((cells) => RAIL_COLUMNS.map((column) => cells[columns.indexOf(column)] ?? ''));
}
