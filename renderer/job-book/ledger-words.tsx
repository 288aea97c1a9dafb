import { useEffect, useState } from 'react';
import type { AppFacts } from '../../core/contract/app-calls.ts';
import { BackupAge } from '../copies/backup-age.tsx';
import { useActions } from '../state/use-desk.ts';

/** Where the ledger lies and how large it is: what a backup has to copy. */
export function LedgerWords() {
  const { ask } = useActions();
  const [facts, setFacts] = useState<AppFacts | null>(null);
  useEffect(() => {
    void ask('appFacts', {}).then(setFacts);
  }, [ask]);
  if (facts === null) return null;
  return (
    <div className="ledger-words">
      <BackupAge />
      <p className="quiet">
        Ledger: {facts.ledgerPath}, {(facts.ledgerBytes / 1e6).toFixed(1)} MB. Wakeline{' '}
        {facts.version}.
      </p>
    </div>
  );
}
