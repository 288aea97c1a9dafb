import { useId } from 'react';
import type { GuardState } from '../../core/contract/guard-calls.ts';
import type { GuardForm, GuardWrong } from './guard-form.ts';

interface Props {
  readonly form: GuardForm;
  readonly wrong: GuardWrong | null;
  readonly ownSet: GuardState['ownSet'];
  readonly onChange: (part: Partial<Pick<GuardForm, 'overV' | 'overA'>>) => void;
}

const FIELDS = [
  { at: 'overV', words: 'Trips above', unit: 'V' },
  { at: 'overA', words: 'Trips above', unit: 'A' },
] as const;

/** The supply's own trips: they act within the supply, at its own speed. */
export function OwnProtection({ form, wrong, ownSet, onChange }: Props) {
  const id = useId();
  return (
    <fieldset className="guard-rows">
      <legend>The supply's own protection</legend>
      <div className="guard-row">
        {FIELDS.map(({ at, words, unit }) => (
          <span key={at} className="guard-number">
            <label htmlFor={`${id}-${at}`}>{words}</label>
            <input
              id={`${id}-${at}`}
              inputMode="decimal"
              autoComplete="off"
              value={form[at]}
              aria-invalid={wrong?.at === at}
              onChange={(event) => onChange({ [at]: event.target.value })}
            />
            <span>{unit}</span>
            {ownSet !== null && form[at].trim() !== '' && (
              <span className="quiet">{ownSet[at] ? 'held by the supply' : 'it has none'}</span>
            )}
          </span>
        ))}
      </div>
      {(wrong?.at === 'overV' || wrong?.at === 'overA') && (
        <p className="guard-wrong" role="alert">
          {wrong.what}
        </p>
      )}
    </fieldset>
  );
}
