import { useRef } from 'react';
import { COLUMN_WORDS } from '../../core/rails/rail-columns.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { TwoPress } from '../parts/two-press.tsx';
import { RailTree } from '../rails/rail-tree.tsx';
import { isDraftEmpty, placeOf, withRow } from './board-draft.ts';
import { BoardFactsFields } from './board-facts-fields.tsx';
import { BoardText } from './board-text.tsx';
import { RailGrid } from './rail-grid.tsx';
import type { BoardDesk } from './use-board-draft.ts';

/** One board: its table, and the tree that it makes. */
export function BoardEditor({ desk, onDelete }: { desk: BoardDesk; onDelete: () => void }) {
  const { draft, checked, trouble, stored, isChanged, change, save } = desk;
  const table = useRef<HTMLDivElement | null>(null);
  const isElsewhere = trouble !== null && !isAtRow(trouble.where, draft.rows.length);
  return (
    <form
      className="board-editor"
      aria-label="Board"
      onSubmit={(event) => {
        event.preventDefault();
        void save();
      }}
    >
      <BoardFactsFields draft={draft} onChange={change} />
      <div className="board-tree">
        {checked === null ? (
          <p className="quiet">
            The tree is drawn here as the rows are typed: the input on the left, loads on the right.
          </p>
        ) : (
          <RailTree
            board={checked.board}
            places={checked.places}
            onPick={(rail) => {
              const row = draft.rows.findIndex((cells) => cells[0]?.trim() === rail);
              table.current?.querySelector<HTMLElement>(`input[data-at="${row}:0"]`)?.focus();
            }}
          />
        )}
      </div>
      {isDraftEmpty(draft) && (
        <p className="quiet">
          Five rails are enough to begin: the input, the main rail, and three that it feeds. Type{' '}
          {COLUMN_WORDS.name} and {COLUMN_WORDS.volts}, or paste rows from a spreadsheet into the
          first cell.
        </p>
      )}
      <div ref={table} className="grid-frame">
        <RailGrid
          draft={draft}
          trouble={trouble}
          warnings={checked?.warnings ?? []}
          learned={stored === null ? new Map() : taughtRows(stored)}
          onChange={change}
        />
      </div>
      {isElsewhere && trouble !== null && (
        <p className="form-wrong" role="alert">
          {trouble.where}: {trouble.what}. {trouble.todo}
        </p>
      )}
      <div className="form-keys">
        <button type="submit" className="plain strong" disabled={isDraftEmpty(draft)}>
          Save board
        </button>
        <button
          type="button"
          className="plain"
          onClick={() => change(withRow(draft, draft.rows.length))}
        >
          Add a row <KeyCap>Enter</KeyCap>
        </button>
        {stored !== null && (
          <TwoPress words="Delete board" sure="Press again to delete it" onSure={onDelete} />
        )}
        <p role="status" className="quiet board-state">
          {isChanged ? 'Not saved yet.' : stored === null ? '' : 'Saved.'}
        </p>
      </div>
      <BoardText key={stored?.csv ?? ''} draft={draft} csv={stored?.csv ?? ''} onChange={change} />
    </form>
  );
}

function isAtRow(where: string, rows: number): boolean {
  const place = placeOf(where);
  return place !== null && place.row < rows;
}

/** What good boards taught each rail, where it differs from what its row states. */
function taughtRows({ learned, stated }: NonNullable<BoardDesk['stored']>): Map<string, string> {
  const rows = new Map<string, string>();
  for (const [at, rail] of learned.rails.entries()) {
    const before = stated.rails[at];
    const words: string[] = [];
    const { expectedOhms: ohms, expectedDiodeV: diode } = rail;
    if (ohms !== null && !isSame(ohms, before?.expectedOhms ?? null)) {
      words.push(
        `${formatQuantity(ohms.median, 'Ω')} ± ${formatQuantity(ohms.spread, 'Ω')} from ${count(ohms.count)}`,
      );
    }
    if (diode !== null && !isSame(diode, before?.expectedDiodeV ?? null)) {
      const show = (v: number) => formatQuantity(v, 'V', null, { prefix: 0 });
      words.push(`diode ${show(diode.median)} ± ${show(diode.spread)} from ${count(diode.count)}`);
    }
    if (words.length > 0) rows.set(rail.name, `Learned from good boards: ${words.join('; ')}.`);
  }
  return rows;
}

const isSame = (a: object, b: object | null) => JSON.stringify(a) === JSON.stringify(b);
const count = (n: number) => (n === 1 ? '1 reading' : `${n} readings`);
