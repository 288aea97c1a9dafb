import { type ReactNode, useId } from 'react';

interface Props {
  readonly label: string;
  /** The label is heard and not seen. */
  readonly isQuiet?: boolean;
  readonly value: string;
  readonly onPick: (value: string) => void;
  readonly className?: string;
  readonly children: ReactNode;
}

/** One of many, with a name of its own that does not run into what is chosen. */
export function Pick({ label, isQuiet = false, value, onPick, className, children }: Props) {
  const id = useId();
  return (
    <div className={className ?? 'pick'}>
      <label htmlFor={id} className={isQuiet ? 'heard-only' : undefined}>
        {label}
      </label>
      <select id={id} value={value} onChange={(event) => onPick(event.target.value)}>
        {children}
      </select>
    </div>
  );
}
