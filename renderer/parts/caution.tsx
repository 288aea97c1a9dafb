import type { ReactNode } from 'react';

/** A caution at the step where it counts: a shape and words, no colour needed. */
export function Caution({ children }: { children: ReactNode }) {
  return (
    <p className="caution">
      <AlarmSign />
      <span>
        <span className="heard-only">Caution: </span>
        {children}
      </span>
    </p>
  );
}

/** A triangle with a stroke and a dot. */
export function AlarmSign({ width = 22 }: { width?: number }) {
  return (
    <svg
      className="alarm-sign"
      viewBox="0 0 22 20"
      width={width}
      height={(width * 20) / 22}
      aria-hidden="true"
    >
      <path d="M11 2L20.5 18.5H1.5Z" />
      <path d="M11 8v5M11 15.8v.4" />
    </svg>
  );
}
