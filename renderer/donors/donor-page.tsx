import { type FormEvent, useEffect, useState } from 'react';
import type { DonorBoard } from '../../core/donors/donor-board.ts';
import { writeModelParts } from '../../core/donors/read-model-parts.ts';
import type { KnownFrom } from '../../core/parts/equivalence.ts';
import { Pick } from '../parts/pick.tsx';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import { TakenLines } from './taken-lines.tsx';

interface Props {
  /** Null = a new one. */
  readonly donor: DonorBoard | null;
  readonly onChanged: (id: string | null) => void;
}

/** One donor board: where it lies, what its model carries, what was taken. */
export function DonorPage({ donor, onChanged }: Props) {
  const { ask } = useActions();
  const [fields, setFields] = useState({
    boardModel: donor?.boardModel ?? '',
    shelf: donor?.shelf ?? '',
    note: donor?.note ?? '',
  });
  const [table, setTable] = useState('');
  const [knownFrom, setKnownFrom] = useState<KnownFrom>('unknown');
  const model = donor?.boardModel ?? null;
  useEffect(() => {
    if (model === null) return;
    void ask('readModelParts', { boardModel: model }).then((parts) => {
      setTable(writeModelParts(parts ?? []));
      setKnownFrom(parts?.[0]?.knownFrom ?? 'unknown');
    });
  }, [model, ask]);
  const onSubmit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const kept = await ask('saveDonor', { id: donor?.id ?? null, fields });
    if (kept === null) return;
    if (donor !== null) {
      await ask('saveModelParts', { boardModel: fields.boardModel, table, knownFrom });
    }
    onChanged(kept.id);
  };
  const scrap = async (): Promise<void> => {
    if (donor !== null && (await ask('scrapDonor', { id: donor.id })) !== undefined)
      onChanged(null);
  };
  return (
    <>
      <form
        className="donor-form"
        onSubmit={(event) => void onSubmit(event)}
        aria-label="Donor board"
      >
        <h2>{donor === null ? 'Put a board on a shelf' : donor.boardModel}</h2>
        <div className="donor-fields">
          {(['boardModel', 'shelf', 'note'] as const).map((name) => (
            <label key={name} className="field">
              {{ boardModel: 'Board model', shelf: 'Shelf', note: 'Note' }[name]}
              <input
                className="field-input"
                required={name === 'boardModel'}
                maxLength={200}
                value={fields[name]}
                onChange={(event) => setFields({ ...fields, [name]: event.target.value })}
              />
            </label>
          ))}
        </div>
        {donor !== null && (
          <>
            <label className="field">
              What every board of this model carries, a part a line
              <textarea
                className="field-input"
                rows={8}
                spellCheck={false}
                placeholder="C12 10u 25V X5R 1206 on MAIN"
                value={table}
                onChange={(event) => setTable(event.target.value)}
              />
            </label>
            <Pick
              label="The figures are known from"
              value={knownFrom}
              onPick={(from) => setKnownFrom(from as KnownFrom)}
            >
              <option value="unknown">nobody knows</option>
              <option value="marking">what is printed on the parts</option>
              <option value="schematic">its schematic</option>
            </Pick>
          </>
        )}
        <div className="form-keys">
          <button type="submit" className="plain strong">
            Keep
          </button>
          {donor !== null && (
            <TwoPress words="Scrap" sure="Press again to scrap it" onSure={() => void scrap()} />
          )}
        </div>
      </form>
      {donor !== null && <TakenLines donor={donor} onBack={() => onChanged(donor.id)} />}
    </>
  );
}
