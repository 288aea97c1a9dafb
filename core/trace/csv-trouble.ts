import { WakelineError } from '../errors.ts';

/** The error for a trace file that cannot be read: what is wrong, in which row and column, what to do. */
export function badTraceFile(what: string, where: string, todo: string): WakelineError {
  return new WakelineError({ code: 'bad-trace-file', what, where, todo });
}

/** Names a row (line of the file, from 1) and a column (from 1, with its heading if it has one). */
export function placeInFile(row: number, column: number, heading: string | undefined): string {
  const name = heading === undefined || heading === '' ? '' : ` "${heading}"`;
  return `row ${row}, column ${column + 1}${name}`;
}
