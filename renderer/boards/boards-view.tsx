import { useEffect, useState } from 'react';
import type { BoardLine, ShopStates } from '../../core/contract/board-calls.ts';
import { PictureBook } from '../pictures/picture-book.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { BoardEditor } from './board-editor.tsx';
import { STATES_LIST } from './grid-row.tsx';
import { ShopStatesForm } from './shop-states.tsx';
import { useBoardDraft } from './use-board-draft.ts';

/** Boards that the shop knows: a list, and the table of the one that is open. */
export function BoardsView() {
  const { ask } = useActions();
  const onBench = useDeskState((state) => state.job?.job.boardModel ?? null);
  const [lines, setLines] = useState<readonly BoardLine[] | null>(null);
  const [states, setStates] = useState<ShopStates | null>(null);
  const readLines = async (): Promise<readonly BoardLine[]> => {
    const found = (await ask('listBoards', {})) ?? [];
    setLines(found);
    setStates(await ask('readShopStates', {}));
    return found;
  };
  const desk = useBoardDraft(() => void readLines());

  // biome-ignore lint/correctness/useExhaustiveDependencies: opens on the bench's board, once
  useEffect(() => {
    void readLines().then(async (found) => {
      if (onBench !== null && (await desk.open(onBench))) return;
      const first = found[0];
      if (onBench !== null || first === undefined) desk.begin(onBench ?? '');
      else await desk.open(first.name);
    });
  }, []);

  const onDelete = async (): Promise<void> => {
    const { stored } = desk;
    if (stored === null) return;
    if ((await ask('deleteBoard', { name: stored.stated.name })) === null) return;
    desk.begin('');
    await readLines();
  };
  const openName = desk.draft.was;

  return (
    <main className="boards">
      <nav className="board-lines" aria-label="Boards">
        <button
          type="button"
          className={`plain${lines?.length === 0 ? ' strong' : ''}`}
          onClick={() => desk.begin('')}
        >
          New board
        </button>
        {lines === null && <p className="quiet">Reading the boards…</p>}
        {lines?.length === 0 && (
          <p className="quiet">
            No board is known yet. Jobs work without one; with its rails entered, readings get
            verdicts and the next best measurement is proposed.
          </p>
        )}
        <ul>
          {lines?.map((line) => (
            <li key={line.name}>
              <button
                type="button"
                className="board-line"
                aria-current={line.name === openName}
                onClick={() => void desk.open(line.name)}
              >
                <span className="job-board">{line.name}</span>
                <span className="quiet">
                  {line.rails} rails, {line.jobs} {line.jobs === 1 ? 'job' : 'jobs'}
                  {line.goodReadings > 0 && `, ${line.goodReadings} good readings`}
                </span>
              </button>
            </li>
          ))}
        </ul>
        {states !== null && (
          <ShopStatesForm
            states={states}
            onSave={async (names) => {
              const saved = await ask('saveShopStates', { states: [...names] });
              if (saved !== null) setStates(saved);
            }}
          />
        )}
        <datalist id={STATES_LIST}>
          {(states?.defined.length ? states.defined : states?.used)?.map((name) => (
            <option key={name} value={name} />
          ))}
        </datalist>
      </nav>
      <section className="board-page" aria-label="Open board">
        <BoardEditor desk={desk} onDelete={() => void onDelete()} />
        {openName !== null && (
          <PictureBook
            key={openName}
            owner={{ boardModel: openName }}
            whole={null}
            none="No picture of this board yet. On one, points can be marked and found again in every job."
          />
        )}
      </section>
    </main>
  );
}
