import { type MouseEvent, useState } from 'react';

interface Props {
  readonly words: string;
  /** What the second press will do, in words. */
  readonly sure: string;
  readonly onSure: () => void;
}

/** A button that asks by turning into its own confirmation; leaving it takes the question back. */
export function TwoPress({ words, sure, onSure }: Props) {
  const [isArmed, setArmed] = useState(false);
  const onClick = (event: MouseEvent): void => {
    if (!isArmed) setArmed(true);
    else if (event.detail < 2) {
      setArmed(false);
      onSure();
    }
  };
  return (
    <button
      type="button"
      className="plain"
      data-armed={isArmed}
      onClick={onClick}
      onBlur={() => setArmed(false)}
      onKeyDown={(event) => {
        if (event.key === 'Escape') setArmed(false);
        if (event.repeat) event.preventDefault();
      }}
    >
      {isArmed ? sure : words}
    </button>
  );
}
