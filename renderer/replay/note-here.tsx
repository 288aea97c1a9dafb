import { type FormEvent, useRef, useState } from 'react';
import type { StageReport } from '../../core/stages/stage.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly runId: string;
  readonly atS: number;
  readonly onReport: (report: StageReport) => void;
}

/** A note on a kept run, where the head stands. */
export function NoteHere({ runId, atS, onReport }: Props) {
  const { ask } = useActions();
  const field = useRef<HTMLInputElement | null>(null);
  const [text, setText] = useState('');
  useKey('note', () => field.current?.focus());
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (text.trim() === '') return;
    const report = await ask('addRunNote', { id: runId, atS, text: text.trim() });
    if (report === null) return;
    onReport(report);
    setText('');
    field.current?.blur();
  };
  return (
    <form className="note-form" onSubmit={(event) => void onSubmit(event)}>
      <input
        ref={field}
        aria-label="Note at this moment"
        placeholder="Note at this moment"
        maxLength={200}
        value={text}
        onChange={(event) => setText(event.target.value)}
      />
      <button type="submit" className="plain">
        Note here <KeyCap>N</KeyCap>
      </button>
    </form>
  );
}
