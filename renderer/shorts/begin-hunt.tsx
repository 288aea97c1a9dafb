import { type FormEvent, useState } from 'react';
import type { RailWalkAnswer } from '../../core/contract/board-calls.ts';
import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly jobId: string;
  readonly answer: RailWalkAnswer | null;
  readonly onBegun: (hunt: HuntWhole) => void;
}

/** Which rail to hunt along: one of the board's, shorted ones first, or a name where none is known. */
export function BeginHunt({ jobId, answer, onBegun }: Props) {
  const { ask } = useActions();
  const rails = [...(answer?.job?.rails ?? [])].sort(
    (a, b) => Number(b.verdict === 'shorted') - Number(a.verdict === 'shorted'),
  );
  const [picked, setPicked] = useState<string | null>(null);
  const rail = picked ?? rails[0]?.rail.name ?? '';
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const begun = await ask('beginHunt', { jobId, rail });
    if (begun !== null) onBegun(begun);
  };
  return (
    <form
      className="begin-hunt"
      aria-label="Begin a hunt"
      onSubmit={(event) => void onSubmit(event)}
    >
      {rails.length > 0 ? (
        <Pick label="Along the rail" value={rail} onPick={setPicked}>
          {rails.map((line) => (
            <option key={line.rail.name} value={line.rail.name}>
              {line.rail.name}
              {line.verdict === 'shorted' ? ' (shorted to ground)' : ''}
            </option>
          ))}
        </Pick>
      ) : (
        <label className="field">
          Along the rail
          <input
            className="field-input"
            autoComplete="off"
            maxLength={60}
            value={rail}
            onChange={(event) => setPicked(event.target.value)}
          />
        </label>
      )}
      <button type="submit" className="plain strong" disabled={rail.trim() === ''}>
        Begin a hunt
      </button>
    </form>
  );
}
