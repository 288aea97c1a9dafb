import { useEffect, useState } from 'react';
import type { Customer } from '../../core/shop/job-terms.ts';
import { useActions } from '../state/use-desk.ts';

interface Props {
  /** What is typed of the name; nothing is offered before two letters. */
  readonly typed: string;
  readonly onPick: (customer: Customer) => void;
}

const MOST = 5;

/** Customers whose name or number begins like what is typed, to pick instead of making another. */
export function KnownCustomers({ typed, onPick }: Props) {
  const { tryAsk } = useActions();
  const [found, setFound] = useState<readonly Customer[]>([]);
  const search = typed.trim();
  useEffect(() => {
    let isWanted = true;
    if (search.length < 2) setFound([]);
    else {
      void tryAsk('listCustomers', { search, limit: MOST }).then((answer) => {
        if (isWanted) setFound(answer.ok ? answer.value : []);
      });
    }
    return () => {
      isWanted = false;
    };
  }, [search, tryAsk]);
  if (found.length === 0) return null;
  return (
    <div className="known-customers">
      <p className="quiet">Known already:</p>
      {found.map((one) => (
        <button key={one.id} type="button" className="plain" onClick={() => onPick(one)}>
          {one.name}
          <span className="quiet">
            {[one.reach, one.jobs === 1 ? '1 job' : `${one.jobs} jobs`].filter(Boolean).join(', ')}
          </span>
        </button>
      ))}
    </div>
  );
}
