import { type FormEvent, useRef, useState } from 'react';
import type { Part } from '../../core/job/job.ts';
import { readPartLine } from '../../core/parts/read-part-line.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions } from '../state/use-desk.ts';

/** One word while the iron is hot, stored at once: `C1207`, `C1207 off for a test`, `L3 back`. */
export function QuickPart({ jobId }: { jobId: string }) {
  const { ask, say, openJob } = useActions();
  const field = useRef<HTMLInputElement | null>(null);
  const [line, setLine] = useState('');
  const [kept, setKept] = useState<readonly Part[]>([]);
  useKey('quickPart', () => field.current?.focus());
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (line.trim() === '') return;
    const parts = await ask('quickPart', { jobId, line });
    if (parts === null) return;
    setLine('');
    setKept(parts);
    say(`Kept: ${parts.map(partWords).join(', ')}.`);
    field.current?.blur();
  };
  const forget = async (): Promise<void> => {
    for (const part of kept) if ((await ask('forgetPart', { id: part.id })) === undefined) return;
    setKept([]);
  };
  const read = readPartLine(line);
  return (
    <form
      className="quick-part"
      aria-label="Part lifted or fitted"
      onSubmit={(event) => void onSubmit(event)}
    >
      <label className="field">
        <span>
          Part, in a word <KeyCap>Q</KeyCap>
        </span>
        <input
          ref={field}
          className="field-input"
          autoComplete="off"
          spellCheck={false}
          maxLength={200}
          placeholder="C1207 lifted"
          value={line}
          onChange={(event) => setLine(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') event.currentTarget.blur();
          }}
        />
      </label>
      <button type="submit" className="plain">
        Keep it
      </button>
      {line.trim() !== '' && (
        <output className="quiet quick-part-read">
          {read.length === 0
            ? 'Type its designator, or where it sat.'
            : `${read
                .map((part) =>
                  [
                    part.designator,
                    part.isBack ? 'put back' : part.action,
                    part.isTest ? 'for a test' : '',
                    part.value,
                    part.rail === '' ? '' : `on ${part.rail}`,
                    part.stateFound,
                    part.from === '' ? '' : `from ${part.from}`,
                  ]
                    .filter((words) => words !== '')
                    .join(' '),
                )
                .join('; ')}`}
        </output>
      )}
      {kept.length > 0 && line === '' && (
        <p className="quiet quick-part-kept">
          Kept: {kept.map(partWords).join(', ')}.{' '}
          <button type="button" className="in-text" onClick={() => openJob(jobId)}>
            The rest of it
          </button>{' '}
          <button type="button" className="in-text" onClick={() => void forget()}>
            Take it back
          </button>
        </p>
      )}
    </form>
  );
}

const partWords = ({ designator, action }: Part): string => `${designator} ${action}`;
