import { type ClipboardEvent, Fragment, type KeyboardEvent, useMemo, useRef } from 'react';
import type { Trouble } from '../../core/errors.ts';
import type { BoardWarning } from '../../core/rails/check-board.ts';
import { COLUMN_WORDS, RAIL_COLUMNS, type RailColumn } from '../../core/rails/rail-columns.ts';
import { useActions } from '../state/use-desk.ts';
import {
  type BoardDraft,
  isDraftEmpty,
  placeOf,
  withBlock,
  withCell,
  withoutRow,
  withRow,
} from './board-draft.ts';

import { type GridActions, GridRow } from './grid-row.tsx';

const EXAMPLES: Readonly<Record<RailColumn, string>> = {
  name: 'MAIN',
  volts: '8.6',
  tolerance: '5%',
  fedBy: 'INPUT',
  through: 'converter',
  enabledBy: 'ALWAYS',
  states: 'on, sleep',
  points: 'C71; in F2:2',
  ohms: '8k2',
  diode: '0.44',
  core: 'no',
};

interface Props {
  readonly draft: BoardDraft;
  readonly trouble: Trouble | null;
  readonly warnings: readonly BoardWarning[];
  /** What known-good boards taught each row, in words; empty where nothing. */
  readonly learned: ReadonlyMap<string, string>;
  readonly onChange: (draft: BoardDraft) => void;
}

/**
 * The rail table, made for typing: arrows move, Enter goes down and adds a row, a spreadsheet is
 * pasted over it. What is wrong is said under its row.
 */
export function RailGrid({ draft, trouble, warnings, learned, onChange }: Props) {
  const body = useRef<HTMLTableSectionElement | null>(null);
  const { tryAsk } = useActions();
  const isEmpty = isDraftEmpty(draft);
  const wrong = trouble === null ? null : placeOf(trouble.where);

  const goTo = (row: number, column: number): void => {
    // After a row was added it is there only once React has drawn it.
    requestAnimationFrame(() => {
      const cell = body.current?.querySelector<HTMLInputElement>(
        `input[data-at="${row}:${column}"]`,
      );
      cell?.focus();
      cell?.select();
    });
  };
  const onKeyDown = (event: KeyboardEvent<HTMLInputElement>, row: number, column: number): void => {
    const { selectionStart, selectionEnd, value } = event.currentTarget;
    const isAll = selectionStart === 0 && selectionEnd === value.length;
    const isAtStart = isAll || (selectionStart === 0 && selectionEnd === 0);
    const isAtEnd = isAll || (selectionStart === value.length && selectionEnd === value.length);
    if (event.key === 'Enter') {
      event.preventDefault();
      if (row + 1 >= draft.rows.length) onChange(withRow(draft, row + 1));
      goTo(row + 1, event.shiftKey ? column : 0);
    } else if (event.key === 'ArrowDown' && row + 1 < draft.rows.length) goTo(row + 1, column);
    else if (event.key === 'ArrowUp' && row > 0) goTo(row - 1, column);
    else if (event.key === 'ArrowLeft' && isAtStart && column > 0) goTo(row, column - 1);
    else if (event.key === 'ArrowRight' && isAtEnd && column + 1 < RAIL_COLUMNS.length) {
      goTo(row, column + 1);
    } else if (event.key === 'Backspace' && event.ctrlKey) {
      event.preventDefault();
      onChange(withoutRow(draft, row));
      goTo(Math.min(row, draft.rows.length - 2), column);
    } else return;
    if (event.key.startsWith('Arrow')) event.preventDefault();
  };
  const onPaste = async (
    event: ClipboardEvent<HTMLInputElement>,
    row: number,
    column: number,
  ): Promise<void> => {
    const text = event.clipboardData.getData('text/plain');
    if (!/[\t\n]/.test(text.trim())) return;
    event.preventDefault();
    if (column === 0) {
      const read = await tryAsk('readRailCells', { text });
      if (read.ok) {
        onChange(withBlock(draft, row, 0, read.value));
        goTo(row + read.value.length - 1, 0);
        return;
      }
    }
    const block = text
      .replace(/\r?\n$/, '')
      .split(/\r?\n/)
      .map((line) => line.split('\t'));
    onChange(withBlock(draft, row, column, block));
    goTo(row + block.length - 1, column);
  };

  // Rows keep one set of actions, so that typing in one draws no other again.
  const latest = useRef({ draft, onChange, onKeyDown, onPaste });
  latest.current = { draft, onChange, onKeyDown, onPaste };
  const actions = useMemo<GridActions>(
    () => ({
      onType: (row, column, text) =>
        latest.current.onChange(withCell(latest.current.draft, row, column, text)),
      onKeyDown: (event, row, column) => latest.current.onKeyDown(event, row, column),
      onPaste: (event, row, column) => void latest.current.onPaste(event, row, column),
      onAway: (row) => latest.current.onChange(withoutRow(latest.current.draft, row)),
    }),
    [],
  );
  const asides = useMemo(() => {
    const byRow = new Map<number, string[]>();
    for (const { row, text } of warnings) byRow.set(row, [...(byRow.get(row) ?? []), text]);
    return byRow;
  }, [warnings]);

  return (
    <table className="rail-grid">
      <thead>
        <tr>
          <th scope="col">
            <span className="heard-only">Row</span>
          </th>
          {RAIL_COLUMNS.map((column) => (
            <th key={column} scope="col" className={`grid-${column}`}>
              {COLUMN_WORDS[column]}
            </th>
          ))}
          <th scope="col">
            <span className="heard-only">Delete the row</span>
          </th>
        </tr>
      </thead>
      <tbody ref={body}>
        {draft.rows.map((cells, row) => {
          const isWrong = wrong?.row === row;
          const taught = learned.get(cells[0]?.trim() ?? '');
          return (
            // biome-ignore lint/suspicious/noArrayIndexKey: a row is its place in the table
            <Fragment key={row}>
              <GridRow
                row={row}
                cells={cells}
                wrong={isWrong ? (wrong.column ?? '') : null}
                examples={isEmpty && row === 0 ? EXAMPLES : null}
                actions={actions}
              />
              {isWrong && trouble !== null && (
                <tr className="row-said" data-wrong="true">
                  <td />
                  <td colSpan={RAIL_COLUMNS.length + 1} id={`row-wrong-${row}`} role="alert">
                    {trouble.what}. {trouble.todo}
                  </td>
                </tr>
              )}
              {asides.get(row + 1)?.map((text) => (
                <tr key={text} className="row-said quiet">
                  <td />
                  <td colSpan={RAIL_COLUMNS.length + 1}>{text}</td>
                </tr>
              ))}
              {taught !== undefined && (
                <tr className="row-said quiet">
                  <td />
                  <td colSpan={RAIL_COLUMNS.length + 1}>{taught}</td>
                </tr>
              )}
            </Fragment>
          );
        })}
      </tbody>
    </table>
  );
}
