interface Props {
  readonly label: string;
  readonly value: string;
  readonly onChange: (value: string) => void;
  readonly isWide?: boolean;
  readonly isWrong?: boolean;
  readonly inputMode?: 'decimal' | 'numeric';
  readonly maxLength?: number;
}

/** One line of text with its name above it. */
export function LineField({ label, value, onChange, isWide, isWrong, ...rest }: Props) {
  return (
    <label className={isWide === true ? 'field wide' : 'field'}>
      {label}
      <input
        className="field-input"
        autoComplete="off"
        value={value}
        aria-invalid={isWrong}
        onChange={(event) => onChange(event.target.value)}
        {...rest}
        maxLength={rest.maxLength ?? 200}
      />
    </label>
  );
}
