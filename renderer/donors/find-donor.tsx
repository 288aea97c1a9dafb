import { type FormEvent, useState } from 'react';
import type { DonorMatch, DonorSearch } from '../../core/donors/donor-board.ts';
import { PartReading } from '../job-book/part-reading.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { EquivalenceLines } from './equivalence-lines.tsx';

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
    await ask('takeFromDonor', { donorId, designator: part.designator, jobId, place });
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
        <div className="donor-found" role="status">
          <p className="quiet">
            {found.why ?? `${found.matches.length} may do`}
            {found.notEqual > 0 && `; ${found.notEqual} of ${found.lookedThrough} would not`}
          </p>
          <ol>
            {found.matches.map((match) => (
              <li key={`${match.donorId}-${match.part.designator}`} className="donor-match">
                <span>
                  <strong>{match.part.designator}</strong> {match.part.text} of {match.boardModel}
                  {match.shelf !== '' && `, shelf ${match.shelf}`}
                </span>
                <button type="button" className="plain" onClick={() => void take(match)}>
                  {job === null ? 'Take it off' : `Take it into job ${job.number}`}
                </button>
                <EquivalenceLines equivalence={match.equivalence} />
              </li>
            ))}
          </ol>
          {found.combinations.map((one) => (
            <p key={one.parts.join('-') + one.how} className="quiet">
              {one.arithmetic} ({one.parts.map((index) => found.stock[index]).join(' with ')}).{' '}
              {one.cautions.join(' ')}
            </p>
          ))}
        </div>
      )}
    </form>
  );
}
