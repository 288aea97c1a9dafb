import { type FormEvent, useState } from 'react';
import { parseQuantity } from '../../core/units/parse.ts';
import { useActions } from '../state/use-desk.ts';

/** A point by its name, and how far along the track it lies where that is known. */
export function AddPoint({ huntId }: { huntId: string }) {
  const { tryAsk } = useActions();
  const [name, setName] = useState('');
  const [along, setAlong] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const alongMm = readMm(along);
    if (alongMm === undefined) {
      setWrong(`"${along}" is no length. Type millimetres, like 42, or leave it empty.`);
      return;
    }
    const point = { name, alongMm, onPicture: null };
    const answer = await tryAsk('addHuntPoint', { huntId, point });
    setWrong(answer.ok ? null : `${answer.trouble.what}. ${answer.trouble.todo}`);
    if (!answer.ok) return;
    setName('');
    setAlong('');
  };
  return (
    <form className="add-point" aria-label="Add a point" onSubmit={(event) => void onSubmit(event)}>
      <label className="field">
        Point along the rail
        <input
          className="field-input"
          autoComplete="off"
          maxLength={60}
          value={name}
          onChange={(event) => setName(event.target.value)}
        />
      </label>
      <label className="field">
        Along the track, mm
        <input
          className="field-input"
          inputMode="decimal"
          autoComplete="off"
          maxLength={12}
          value={along}
          onChange={(event) => setAlong(event.target.value)}
        />
      </label>
      <button type="submit" className="plain">
        Add point
      </button>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
    </form>
  );
}

/** Millimetres as typed; null when nothing is, undefined when it is no length. */
function readMm(text: string): number | null | undefined {
  if (text.trim() === '') return null;
  const parsed = parseQuantity(text.replace(/\s*mm\s*$/i, ''), '');
  const value = parsed.ok ? parsed.value : null;
  return value !== null && value >= 0 && value <= 10_000 ? value : undefined;
}
