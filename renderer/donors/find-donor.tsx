import { type FormEvent, useState } from 'react';
import type { DonorMatch, DonorSearch } from '../../core/donors/donor-board.ts';
import { PartReading } from '../job-book/part-reading.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { DonorMatches } from './donor-matches.tsx';

/** Is there a part on the shelves that would do? */
export function FindDonor({ onTaken }: { readonly onTaken: () => void }) {
  const { ask } = useActions();
  const job = useDeskState((state) => state.job?.job ?? null);
  const [text, setText] = useState('');
  const [found, setFound] = useState<DonorSearch | null>(null);
  const jobId = job?.id ?? null;
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (text.trim() !== '') setFound(await ask('findDonor', { text, jobId }));
  };
  const take = async (match: DonorMatch): Promise<void> => {
    const place = found?.wanted.designator ?? '';
    const { donorId, part } = match;
    const at = { donorId, designator: part.designator, jobId, place };
    if ((await ask('takeFromDonor', at)) === null && jobId !== null) return;
    setFound(null);
    onTaken();
  };
  return (
    <form
      className="find-donor"
      onSubmit={(event) => void onSubmit(event)}
      aria-label="Find a part"
    >
      <label className="field">
        Part wanted
        <input
          className="field-input"
          maxLength={200}
          placeholder="C12 10u 25V X5R 1206"
          value={text}
          onChange={(event) => setText(event.target.value)}
        />
      </label>
      <button type="submit" className="plain strong">
        Look across the shelves
      </button>
      <PartReading part={{ kind: '', designator: '', value: text }} onRetype={setText} />
      {found !== null && (
        <DonorMatches
          found={found}
          jobNumber={job?.number ?? null}
          onTake={(match) => void take(match)}
        />
      )}
    </form>
  );
}
