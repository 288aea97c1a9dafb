import { useRef, useState } from 'react';
import { useActions } from '../state/use-desk.ts';
import { type BoardDraft, factsIn, withBlock } from './board-draft.ts';

interface Props {
  readonly draft: BoardDraft;
  /** The stored table as CSV; empty for a board that was never saved. */
  readonly csv: string;
  readonly onChange: (draft: BoardDraft) => void;
}

/** The table as text: out to be copied, in from a spreadsheet or a file. */
export function BoardText({ draft, csv, onChange }: Props) {
  const { tryAsk, say } = useActions();
  const area = useRef<HTMLTextAreaElement | null>(null);
  const [text, setText] = useState(csv);
  const [words, setWords] = useState('');
  const read = async (): Promise<void> => {
    const cells = await tryAsk('readRailCells', { text });
    if (!cells.ok) {
      setWords(`${cells.trouble.where}: ${cells.trouble.what}. ${cells.trouble.todo}`);
      return;
    }
    setWords(`${cells.value.length} rows read into the table. Nothing is saved yet.`);
    onChange(
      withBlock({ ...draft, facts: factsIn(text, draft.facts), rows: [] }, 0, 0, cells.value),
    );
  };
  const copy = (): void => {
    area.current?.select();
    // The window may not use the clipboard by itself: only what a person selects is copied.
    const isCopied = document.execCommand('copy');
    say(isCopied ? 'Copied.' : 'Selected: press Ctrl+C.');
    setWords(isCopied ? 'Copied.' : 'Selected: press Ctrl+C.');
  };
  return (
    <details className="board-text">
      <summary>As CSV text, in or out</summary>
      <label className="field">
        One rail a row, with or without a heading; commas, semicolons or tabs between
        <textarea
          ref={area}
          className="field-input"
          rows={8}
          spellCheck={false}
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      <div className="form-keys">
        <button type="button" className="plain" onClick={() => void read()}>
          Read it into the table
        </button>
        <button type="button" className="plain" onClick={copy} disabled={text === ''}>
          Copy all
        </button>
      </div>
      {words !== '' && <p role="status">{words}</p>}
    </details>
  );
}
