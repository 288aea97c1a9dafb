import { type FormEvent, useRef, useState } from 'react';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Marks on the run: the wake request, a bare mark, and a note in words. */
export function MarkControls() {
  const marks = useDeskState((state) => state.live?.report.marks ?? null);
  const { ask, say } = useActions();
  const field = useRef<HTMLInputElement | null>(null);
  const [note, setNote] = useState<string | null>(null);

  const wake = async (): Promise<void> => {
    const mark = await ask('mark', { mark: 'wake-request', text: '' });
    if (mark !== null) say('Wake request marked.');
  };
  const mark = async (text: string): Promise<void> => {
    const count = (marks ?? []).filter((one) => one.mark === 'note').length + 1;
    const made = await ask('mark', { mark: 'note', text: text || `Mark ${count}` });
    if (made !== null) say('Marked.');
  };
  const openNote = (): void => {
    setNote('');
    requestAnimationFrame(() => field.current?.focus());
  };
  useKey('wakeRequest', () => void wake());
  useKey('pedal', () => void wake());
  useKey('mark', () => void mark(''));
  useKey('note', openNote);

  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    void mark(note?.trim() ?? '');
    setNote(null);
  };

  return (
    <div className="mark-controls">
      <button type="button" className="plain" onClick={() => void wake()}>
        Wake request <KeyCap>W</KeyCap>
      </button>
      <button type="button" className="plain" onClick={() => void mark('')}>
        Mark <KeyCap>M</KeyCap>
      </button>
      {note === null ? (
        <button type="button" className="plain" onClick={openNote}>
          Note <KeyCap>N</KeyCap>
        </button>
      ) : (
        <form className="note-form" onSubmit={onSubmit}>
          <input
            ref={field}
            aria-label="Note on the run"
            maxLength={200}
            value={note}
            onChange={(event) => setNote(event.target.value)}
            onKeyDown={(event) => {
              if (event.key === 'Escape') setNote(null);
            }}
          />
          <button type="submit" className="plain">
            Mark it
          </button>
        </form>
      )}
    </div>
  );
}
