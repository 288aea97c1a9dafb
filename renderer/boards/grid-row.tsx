import { type ClipboardEvent, type KeyboardEvent, memo } from 'react';
import { COLUMN_WORDS, RAIL_COLUMNS, type RailColumn } from '../../core/rails/rail-columns.ts';

/** What can happen in a cell; the same object for all rows while the table is open. */
export interface GridActions {
  readonly onType: (row: number, column: number, text: string) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLInputElement>, row: number, column: number) => void;
  readonly onPaste: (event: ClipboardEvent<HTMLInputElement>, row: number, column: number) => void;
  readonly onAway: (row: number) => void;
}

interface Props {
  readonly row: number;
  readonly cells: readonly string[];
  /** The column that is wrong; an empty text = the row as a whole, null = none. */
  readonly wrong: string | null;
  readonly examples: Readonly<Record<RailColumn, string>> | null;
  readonly actions: GridActions;
}

/** List of the shop's states that cells of that column offer. */
export const STATES_LIST = 'shop-state-names';

/** One row of the rail table; drawn again only when it changes itself. */
export const GridRow = memo(function GridRow({ row, cells, wrong, examples, actions }: Props) {
  return (
    <tr data-wrong={wrong !== null}>
      <th scope="row" className="grid-row">
        {row + 1}
      </th>
      {RAIL_COLUMNS.map((column, at) => (
        <td key={column}>
          <input
            data-at={`${row}:${at}`}
            aria-label={`Row ${row + 1}, ${COLUMN_WORDS[column]}`}
            aria-invalid={
              wrong !== null && (wrong === '' ? at === 0 : wrong === COLUMN_WORDS[column])
            }
            aria-describedby={wrong !== null ? `row-wrong-${row}` : undefined}
            list={column === 'states' ? STATES_LIST : undefined}
            placeholder={examples?.[column]}
            autoComplete="off"
            spellCheck={false}
            maxLength={200}
            value={cells[at] ?? ''}
            onChange={(event) => actions.onType(row, at, event.target.value)}
            onKeyDown={(event) => actions.onKeyDown(event, row, at)}
            onPaste={(event) => actions.onPaste(event, row, at)}
          />
        </td>
      ))}
      <td>
        <button
          type="button"
          className="row-away"
          aria-label={`Delete row ${row + 1}`}
          onClick={() => actions.onAway(row)}
        >
          ×
        </button>
      </td>
    </tr>
  );
});
