import { useId } from 'react';

interface Props {
  readonly label: string;
  readonly currency: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  /** What is wrong with what is typed; null = nothing. */
  readonly wrong: string | null;
}

/** An amount as it is typed, with the shop's currency beside it. */
export function MoneyField({ label, currency, value, onChange, wrong }: Props) {
  const id = useId();
  return (
    <div className="field money-field">
      <label htmlFor={id}>
        {label}, {currency}
      </label>
      <input
        id={id}
        className="field-input"
        inputMode="decimal"
        autoComplete="off"
        maxLength={40}
        value={value}
        aria-invalid={wrong !== null}
        aria-describedby={wrong === null ? undefined : `${id}-wrong`}
        onChange={(event) => onChange(event.target.value)}
      />
      {wrong !== null && (
        <p role="alert" className="form-wrong" id={`${id}-wrong`}>
          {wrong}
        </p>
      )}
    </div>
  );
}
