import type { Customer } from '../../core/shop/job-terms.ts';
import { KnownCustomers } from './known-customers.tsx';

/** Whose a board is, as it is being taken in. */
export interface CustomerText {
  readonly name: string;
  readonly reach: string;
  /** Who was picked; null = a new one, or none where no name is typed. */
  readonly picked: Customer | null;
}

export const NO_CUSTOMER: CustomerText = { name: '', reach: '', picked: null };

interface Props {
  readonly text: CustomerText;
  readonly onChange: (text: CustomerText) => void;
}

/** A name, and one way to reach them; a customer who was here before is picked instead. */
export function IntakeCustomer({ text, onChange }: Props) {
  const { picked } = text;
  if (picked !== null) {
    return (
      <div className="field picked-customer">
        <span>Customer</span>
        <p>
          <strong>{picked.name}</strong>
          {picked.reach !== '' && `, ${picked.reach}`}
        </p>
        <button type="button" className="plain" onClick={() => onChange(NO_CUSTOMER)}>
          Somebody else
        </button>
      </div>
    );
  }
  return (
    <>
      <label className="field field-customer">
        Customer
        <input
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={text.name}
          onChange={(event) => onChange({ ...text, name: event.target.value })}
        />
      </label>
      <label className="field">
        How to reach them
        <input
          className="field-input"
          autoComplete="off"
          maxLength={200}
          value={text.reach}
          onChange={(event) => onChange({ ...text, reach: event.target.value })}
        />
      </label>
      <KnownCustomers typed={text.name} onPick={(one) => onChange({ ...text, picked: one })} />
    </>
  );
}
