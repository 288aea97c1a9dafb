import { useId } from 'react';
import { Pick } from '../parts/pick.tsx';
import type { GuardRow, RowText } from './guard-form.ts';

interface Props {
  readonly row: GuardRow;
  readonly text: RowText;
  readonly wrong: string | null;
  readonly canSwitch: boolean;
  readonly onChange: (text: RowText) => void;
}

/** One limit: its number, how long it may last, and what a trip does. */
export function GuardRowFields({ row, text, wrong, canSwitch, onChange }: Props) {
  const id = useId();
  const isOff = text.action === 'none';
  return (
    <div className="guard-row" data-on={row.on}>
      <label htmlFor={row.unit === '' ? undefined : id} className="guard-name">
        {row.words}
      </label>
      {row.unit !== '' && (
        <span className="guard-number">
          <input
            id={id}
            inputMode="decimal"
            autoComplete="off"
            value={text.limit}
            aria-invalid={wrong !== null}
            aria-describedby={wrong === null ? undefined : `${id}-wrong`}
            onChange={(event) =>
              onChange({
                ...text,
                limit: event.target.value,
                action: isOff && event.target.value !== '' ? 'alert' : text.action,
              })
            }
          />
          <span>{row.unit}</span>
        </span>
      )}
      {row.canHold && (
        <span className="guard-number">
          <input
            aria-label={`${row.words}: may last, in seconds`}
            inputMode="decimal"
            autoComplete="off"
            placeholder="0"
            value={text.hold}
            onChange={(event) => onChange({ ...text, hold: event.target.value })}
          />
          <span>s long</span>
        </span>
      )}
      <Pick
        label={`${row.words}: then`}
        isQuiet
        className="guard-action"
        value={text.action}
        onPick={(action) => onChange({ ...text, action: action as RowText['action'] })}
      >
        <option value="none">Not guarded</option>
        <option value="alert">Alert</option>
        <option value="off">{canSwitch ? 'Output off' : 'Output off (cannot switch)'}</option>
      </Pick>
      {wrong !== null && (
        <p id={`${id}-wrong`} className="guard-wrong" role="alert">
          {wrong}
        </p>
      )}
    </div>
  );
}
