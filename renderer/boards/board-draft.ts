import type { BoardModel } from '../../core/rails/board-model.ts';
import { RAIL_COLUMNS } from '../../core/rails/rail-columns.ts';

/** A board as it is being typed: nothing of it is read yet. */
export interface BoardDraft {
  readonly name: string;
  /** The stored name, when it is a stored one that is being changed. */
  readonly was: string | null;
  readonly rows: readonly (readonly string[])[];
  readonly facts: BoardDraftFacts;
}

export interface BoardDraftFacts {
  readonly statedInputV: string;
  readonly statedLimitA: string;
  readonly runningA: string;
  readonly runsFlat: '' | 'yes' | 'no';
}

const EMPTY_ROW: readonly string[] = RAIL_COLUMNS.map(() => '');
/** Rows that an empty table begins with: five rails are enough. */
const FIRST_ROWS = 5;

export const EMPTY_DRAFT: BoardDraft = {
  name: '',
  was: null,
  rows: Array.from({ length: FIRST_ROWS }, () => EMPTY_ROW),
  facts: { statedInputV: '', statedLimitA: '', runningA: '', runsFlat: '' },
};

/** The draft of a stored board, from its cells. */
export function draftOf(board: BoardModel, cells: readonly (readonly string[])[]): BoardDraft {
  const text = (value: number | null) => (value === null ? '' : String(value));
  return {
    name: board.name,
    was: board.name,
    rows: cells,
    facts: {
      statedInputV: text(board.statedInputV),
      statedLimitA: text(board.statedLimitA),
      runningA: text(board.runningA),
      runsFlat: board.runsFlat === null ? '' : board.runsFlat ? 'yes' : 'no',
    },
  };
}

/** One cell changed; a row is added when the cell lies beyond the last. */
export function withCell(draft: BoardDraft, row: number, column: number, text: string): BoardDraft {
  return withBlock(draft, row, column, [[text]]);
}

/** A block of cells laid over the table from one cell on. */
export function withBlock(
  draft: BoardDraft,
  row: number,
  column: number,
  block: readonly (readonly string[])[],
): BoardDraft {
  const height = Math.max(draft.rows.length, row + block.length);
  const rows = Array.from({ length: height }, (_, at) => {
    const cells = draft.rows[at] ?? EMPTY_ROW;
    const laid = block[at - row];
    if (laid === undefined) return cells;
    return cells.map((cell, i) => laid[i - column] ?? cell);
  });
  return { ...draft, rows };
}

export function withRow(draft: BoardDraft, at: number): BoardDraft {
  return { ...draft, rows: draft.rows.toSpliced(at, 0, EMPTY_ROW) };
}

export function withoutRow(draft: BoardDraft, at: number): BoardDraft {
  const rows = draft.rows.toSpliced(at, 1);
  return { ...draft, rows: rows.length === 0 ? [EMPTY_ROW] : rows };
}

export function isRowEmpty(row: readonly string[]): boolean {
  return row.every((cell) => cell.trim() === '');
}

/** Whether nothing is typed that could be lost. */
export function isDraftEmpty(draft: BoardDraft): boolean {
  return draft.rows.every(isRowEmpty);
}

/**
 * The draft as the text that is read and saved. Row n of the table is line n of the text, so that
 * what is wrong in a line is said at its row; the facts follow below.
 */
export function tableText({ rows, facts }: BoardDraft): string {
  const lines = rows.map((cells) => cells.map(quoted).join('\t'));
  const fact = (word: string, text: string) =>
    text.trim() === '' ? [] : [`# ${word}\t${text.trim()}`];
  return [
    ...lines,
    ...fact('stated input V', facts.statedInputV),
    ...fact('stated limit A', facts.statedLimitA),
    ...fact('running draw A', facts.runningA),
    ...fact('runs flat', facts.runsFlat),
  ].join('\n');
}

function quoted(cell: string): string {
  const plain = cell.replace(/[\t\r\n]+/g, ' ');
  return plain.includes('"') ? `"${plain.replaceAll('"', '""')}"` : plain;
}

/** The facts that a text states in rows that begin with #, over those that are there. */
export function factsIn(text: string, facts: BoardDraftFacts): BoardDraftFacts {
  const find = (word: string) =>
    new RegExp(`^"?# ${word}"?[,;\\t]\\s*"?([^"\\r\\n,;\\t]*)`, 'im').exec(text)?.[1]?.trim();
  const flat = find('runs flat')?.toLowerCase();
  return {
    statedInputV: find('stated input V') ?? facts.statedInputV,
    statedLimitA: find('stated limit A') ?? facts.statedLimitA,
    runningA: find('running draw A') ?? facts.runningA,
    runsFlat: flat === 'yes' || flat === 'no' ? flat : facts.runsFlat,
  };
}

/** Where a message about a table points: its row from 0, and its column when it names one. */
export function placeOf(where: string): { row: number; column: string | null } | null {
  const found = /^row (\d+)(?:, column (.+))?/.exec(where);
  if (found === null) return null;
  return { row: Number(found[1]) - 1, column: found[2] ?? null };
}
