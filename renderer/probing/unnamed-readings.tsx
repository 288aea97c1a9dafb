import { type FormEvent, useState } from 'react';
import type { ProbeTaken } from '../../core/contract/probing-calls.ts';
import { placesFor } from '../../core/probing/place-names.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { type KnownPlace, knownPlaces } from './known-places.ts';
import { takenValue } from './taken-words.ts';

const MOST_OFFERED = 6;

/** Readings taken free, oldest first, that wait for a name: a few letters, or one tap. */
export function UnnamedReadings({ taken }: { taken: readonly ProbeTaken[] }) {
  const unnamed = taken.filter((one) => one.place === '' && one.readingId !== null).toReversed();
  const first = unnamed[0];
  if (first === undefined) return null;
  return (
    <div className="unnamed">
      <h3>
        {unnamed.length === 1
          ? '1 reading waits for its name'
          : `${unnamed.length} wait for their names`}
      </h3>
      <NameForm key={first.readingId} reading={first} />
      <ol>
        {unnamed.slice(1).map((one) => (
          <li key={one.readingId} className="quiet">
            {takenValue(one)}
          </li>
        ))}
      </ol>
    </div>
  );
}

function NameForm({ reading }: { reading: ProbeTaken }) {
  const job = useDeskState((state) => state.job);
  const { ask } = useActions();
  const [typed, setTyped] = useState('');
  const known = knownPlaces(job, reading.quantity);
  const offered = placesFor(
    typed,
    known.map((one) => one.place),
  ).slice(0, MOST_OFFERED);
  const give = (place: string, of: KnownPlace | undefined) =>
    reading.readingId !== null &&
    void ask('nameProbe', {
      readingId: reading.readingId,
      itemId: of?.item?.id ?? null,
      place,
    });
  const named = (place: string) => known.find((one) => one.place === place);
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    const text = typed.trim();
    if (text === '') return;
    const place = offered[0] ?? text;
    give(place, named(place));
  };
  return (
    <form className="name-form" onSubmit={onSubmit}>
      <label className="field">
        <span>
          Where was <strong>{takenValue(reading)}</strong>?
        </span>
        <input
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={typed}
          onChange={(event) => setTyped(event.target.value)}
        />
      </label>
      <div className="name-offers">
        {offered.map((place, at) => (
          <button
            key={place}
            type="button"
            className={at === 0 && typed.trim() !== '' ? 'plain strong' : 'plain'}
            onClick={() => give(place, named(place))}
          >
            {place}
          </button>
        ))}
        {typed.trim() !== '' && !offered.includes(typed.trim()) && (
          <button type="button" className="plain" onClick={() => give(typed.trim(), undefined)}>
            “{typed.trim()}”, as typed
          </button>
        )}
      </div>
    </form>
  );
}
