import { useEffect, useState } from 'react';
import type { BoardWhole, CheckedBoard } from '../../core/contract/board-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import { useActions } from '../state/use-desk.ts';
import { type BoardDraft, draftOf, EMPTY_DRAFT, isDraftEmpty, tableText } from './board-draft.ts';

/** A pause in typing after which the table is read. */
const READ_AFTER_MS = 250;

/** The board being typed: read again after every pause, saved whole or not at all. */
export function useBoardDraft(onSaved: (name: string) => void) {
  const { tryAsk, ask, say } = useActions();
  const [draft, setDraft] = useState<BoardDraft>(EMPTY_DRAFT);
  const [isChanged, setChanged] = useState(false);
  const [stored, setStored] = useState<BoardWhole | null>(null);
  const [checked, setChecked] = useState<CheckedBoard | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);

  useEffect(() => {
    if (isDraftEmpty(draft)) {
      setChecked(null);
      setTrouble(null);
      return;
    }
    let isWanted = true;
    const timer = setTimeout(async () => {
      const read = await tryAsk('readBoardTable', { name: draft.name, table: tableText(draft) });
      if (!isWanted) return;
      setTrouble(read.ok ? null : read.trouble);
      // The tree stays as it last was while a row is half typed.
      if (read.ok) setChecked(read.value);
    }, READ_AFTER_MS);
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [draft, tryAsk]);

  const take = (whole: BoardWhole): void => {
    setStored(whole);
    setDraft(draftOf(whole.stated, whole.cells));
    setChanged(false);
    setTrouble(null);
  };

  return {
    draft,
    checked,
    trouble,
    stored,
    isChanged,
    change: (next: BoardDraft): void => {
      setDraft(next);
      setChanged(true);
    },
    /** A new board, named when the job names one. */
    begin: (name: string): void => {
      setStored(null);
      setDraft({ ...EMPTY_DRAFT, name });
      setChanged(false);
    },
    open: async (name: string): Promise<boolean> => {
      const whole = await ask('readBoard', { name });
      if (whole !== null) take(whole);
      return whole !== null;
    },
    save: async (): Promise<void> => {
      const saved = await tryAsk('saveBoard', {
        name: draft.name.trim(),
        was: draft.was,
        table: tableText(draft),
      });
      if (!saved.ok) {
        setTrouble(saved.trouble);
        return;
      }
      take(saved.value);
      say(`${saved.value.stated.name} saved.`);
      onSaved(saved.value.stated.name);
    },
  };
}

export type BoardDesk = ReturnType<typeof useBoardDraft>;
