import { type FormEvent, useState } from 'react';
import type { DonorBoard, DonorTake } from '../../core/donors/donor-board.ts';
import { dayWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';

interface Props {
  readonly donor: DonorBoard;
  readonly onBack: () => void;
}

/** What was taken from a board and into which job, what went back, and why. */
export function TakenLines({ donor, onBack }: Props) {
  const { ask } = useActions();
  const [backId, setBackId] = useState<string | null>(null);
  const [why, setWhy] = useState('');
  const onSubmit = async (event: FormEvent, take: DonorTake): Promise<void> => {
    event.preventDefault();
    if ((await ask('returnToDonor', { takeId: take.id, why })) === null) return;
    setBackId(null);
    setWhy('');
    onBack();
  };
  if (donor.taken.length === 0 && donor.returned.length === 0) return null;
  return (
    <section aria-label="Taken from it">
      <h3>Taken from it</h3>
      <ul>
        {donor.taken.map((take) => (
          <li key={take.id}>
            <div className="taken-line">
              <span>
                <strong>{take.designator}</strong> {take.text}, taken {dayWords(take.takenAt)}
                {take.jobNumber !== null && ` into job ${take.jobNumber}`}
              </span>
              <button type="button" className="plain" onClick={() => setBackId(take.id)}>
                Put it back<span className="heard-only"> {take.designator}</span>
              </button>
            </div>
            {backId === take.id && (
              <form className="stays-off" onSubmit={(event) => void onSubmit(event, take)}>
                <label className="field">
                  Why it goes back
                  <input
                    className="field-input"
                    // biome-ignore lint/a11y/noAutofocus: opened by a press, the next thing is to type
                    autoFocus
                    minLength={3}
                    maxLength={100}
                    required
                    value={why}
                    onChange={(event) => setWhy(event.target.value)}
                  />
                </label>
                <button type="submit" className="plain strong">
                  Keep: it is back on the board
                </button>
                {take.jobNumber !== null && (
                  <p className="quiet">
                    It is written as lifted in job {take.jobNumber}, whose place then asks anew.
                  </p>
                )}
              </form>
            )}
          </li>
        ))}
        {donor.returned.map((back) => (
          <li key={`${back.designator}-${back.returnedAt}`} className="quiet taken-line">
            {back.designator} went back {dayWords(back.returnedAt)}
            {back.jobNumber !== null && ` out of job ${back.jobNumber}`}: {back.why}. Heated twice.
          </li>
        ))}
      </ul>
    </section>
  );
}
