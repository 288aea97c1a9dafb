import type { ReactNode } from 'react';

/** The key that does the same as the button it stands in. Heard through the button's own name. */
export function KeyCap({ children }: { children: ReactNode }) {
  return (
    <span className="key-cap" aria-hidden="true">
      {children}
    </span>
  );
}
