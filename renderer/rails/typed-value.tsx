import { type FormEvent, useState } from 'react';
import type { Quantity } from '../../core/job/job.ts';
import { UNIT_OF } from '../../core/units/format-reading.ts';
import { parseQuantity } from '../../core/units/parse.ts';

interface Props {
  readonly quantity: Quantity;
  readonly onSave: (value: {
    readonly value: number | null;
    readonly overload: boolean;
    readonly decimals: number | null;
  }) => void;
  readonly onCancel: () => void;
}

/** One value by hand: Enter keeps it, Escape goes back. */
export function TypedValue({ quantity, onSave, onCancel }: Props) {
  const [text, setText] = useState('');
  const [wrong, setWrong] = useState<string | null>(null);
  const unit = UNIT_OF[quantity];
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    const parsed = parseQuantity(text, unit);
    if (!parsed.ok) {
      setWrong(`${parsed.what}. ${parsed.todo}`);
      return;
    }
    setWrong(null);
    onSave({
      value: parsed.value,
      overload: parsed.overload,
      decimals: parsed.overload ? null : Math.min(12, Math.max(0, parsed.decimals)),
    });
  };
  return (
    <form className="typed-value" aria-label="Type the reading" onSubmit={onSubmit}>
      <label className="field">
        Reading in {unit} (OL is over range)
        <input
          className="field-input"
          // biome-ignore lint/a11y/noAutofocus: opened by a key press, the next thing is to type
          autoFocus
          autoComplete="off"
          maxLength={40}
          value={text}
          aria-invalid={wrong !== null}
          onChange={(event) => setText(event.target.value)}
          onKeyDown={(event) => {
            if (event.key === 'Escape') onCancel();
          }}
        />
      </label>
      <button type="submit" className="plain strong">
        Keep reading
      </button>
      <button type="button" className="plain" onClick={onCancel}>
        Back
      </button>
      {wrong !== null && (
        <p role="alert" className="form-wrong">
          {wrong}
        </p>
      )}
    </form>
  );
}
