import { type ReactNode, useEffect, useState } from 'react';
import type { ChecklistItem } from '../../core/job/job.ts';
import { ItemSign } from './done-item.tsx';

interface Props {
  readonly name: string;
  readonly items: readonly ChecklistItem[];
  readonly nextId: string | null;
  readonly children: ReactNode;
}

/** A phase of the walk: folded to one line unless the next step is in it or a person opened it. */
export function Phase({ name, items, nextId, children }: Props) {
  const isNow = items.some((item) => item.id === nextId);
  const [isOpen, setOpen] = useState(isNow);
  useEffect(() => setOpen(isNow), [isNow]);
  const settled = items.filter((item) => item.state !== 'open').length;
  return (
    <section className="phase" aria-label={name} data-now={isNow}>
      <h3>
        <button
          type="button"
          className="phase-name"
          aria-expanded={isOpen}
          onClick={() => setOpen(!isOpen)}
        >
          <ItemSign state={settled === items.length ? 'done' : 'open'} />
          <span>{name}</span>
          <span className="quiet">
            {settled} of {items.length}
          </span>
        </button>
      </h3>
      {isOpen && children}
    </section>
  );
}
