import { type FormEvent, useState } from 'react';
import type { Customer } from '../../core/shop/job-terms.ts';
import { FormKeys } from './form-keys.tsx';

export type CustomerFields = Pick<Customer, 'name' | 'reach' | 'note'>;

interface Props {
  readonly fields: CustomerFields;
  /** What the button says. */
  readonly does: string;
  readonly onKeep: (fields: CustomerFields) => void;
  readonly onCancel: () => void;
}

/** A customer: a name, one way to reach them, a note. Nothing else is asked for. */
export function CustomerForm({ fields: before, does, onKeep, onCancel }: Props) {
  const [fields, setFields] = useState(before);
  const [isMissing, setMissing] = useState(false);
  const onSubmit = (event: FormEvent): void => {
    event.preventDefault();
    const name = fields.name.trim();
    setMissing(name === '');
    if (name !== '') onKeep({ ...fields, name, reach: fields.reach.trim() });
  };
  const line = (field: 'name' | 'reach', words: string) => (
    <label className="field">
      {words}
      <input
        className="field-input"
        autoComplete="off"
        maxLength={200}
        value={fields[field]}
        onChange={(event) => setFields({ ...fields, [field]: event.target.value })}
      />
    </label>
  );
  return (
    <form className="shop-form" onSubmit={onSubmit} noValidate>
      {line('name', 'Name')}
      {line('reach', 'How to reach them')}
      <label className="field wide">
        Note
        <textarea
          className="field-input"
          rows={2}
          maxLength={4000}
          value={fields.note}
          onChange={(event) => setFields({ ...fields, note: event.target.value })}
        />
      </label>
      {isMissing && (
        <p role="alert" className="form-wrong">
          Write a name first.
        </p>
      )}
      <FormKeys does={does} onLeave={onCancel} />
    </form>
  );
}
