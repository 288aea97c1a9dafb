import { type FormEvent, useState } from 'react';
import type { Quantity } from '../../core/job/job.ts';
import { UNIT_OF } from '../../core/units/format-reading.ts';
import { parseQuantity } from '../../core/units/parse.ts';
import type { TypedReading } from './use-keep-reading.ts';

interface Props {
  readonly quantity: Quantity;
  readonly place: string;
  readonly onSave: (reading: TypedReading) => void;
  readonly onCancel: () => void;
}

/** A reading by hand: the value, where, and what was expected if that is known. */
export function TypedReadingForm({ quantity, place, onSave, onCancel }: Props) {
  const unit = UNIT_OF[quantity];
  const [text, setText] = useState({ value: '', place, low: '', high: '' });
  const [wrong, setWrong] = useState<{ field: string; words: string } | null>(null);

  const read = (field: 'value' | 'low' | 'high') => {
    const parsed = parseQuantity(text[field], unit);
    if (!parsed.ok) setWrong({ field, words: `${parsed.what}. ${parsed.todo}` });
    return parsed.ok ? parsed : null;
  };
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    setWrong(null);
    const value = read('value');
    const low = text.low.trim() === '' ? null : read('low');
    const high = text.high.trim() === '' ? null : read('high');
    const isRead = (field: 'low' | 'high', parsed: unknown) =>
      text[field].trim() === '' || parsed !== null;
    if (value === null || !isRead('low', low) || !isRead('high', high)) return;
    onSave({
      quantity,
      value: value.value,
      overload: value.overload,
      decimals: value.overload ? null : Math.min(12, Math.max(0, value.decimals)),
      place: text.place.trim(),
      expectedLow: low?.value ?? null,
      expectedHigh: high?.value ?? null,
    });
  };
  const field = (name: keyof typeof text, label: string, isFirst = false) => (
    <label key={name} className={`field field-${name}`}>
      {label}
      <input
        className="field-input"
        // biome-ignore lint/a11y/noAutofocus: opened by a key press, the next thing is to type
        autoFocus={isFirst}
        autoComplete="off"
        value={text[name]}
        maxLength={200}
        aria-invalid={wrong?.field === name}
        onChange={(event) => setText({ ...text, [name]: event.target.value })}
        onKeyDown={(event) => {
          if (event.key === 'Escape') onCancel();
        }}
      />
    </label>
  );
  return (
    <form className="typed-reading" onSubmit={onSubmit}>
      {field('value', `Reading in ${unit} (OL is over range)`, true)}
      {field('place', 'Where')}
      {field('low', 'Expected from')}
      {field('high', 'to')}
      {wrong !== null && <p role="alert">{wrong.words}</p>}
      <button type="submit" className="plain strong">
        Keep reading
      </button>
      <button type="button" className="plain" onClick={onCancel}>
        Back
      </button>
    </form>
  );
}
