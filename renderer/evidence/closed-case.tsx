import { useEffect, useState } from 'react';
import type { CaseDetails } from '../../core/cases/case-details.ts';
import type { Cause } from '../../core/evidence/cause-table.ts';
import { missingProof, proofOf } from '../../core/evidence/past-case.ts';
import { useActions } from '../state/use-desk.ts';

/** The cause of a closed job in the shop's tree, and whether it counts. */
export function ClosedCase({ jobId }: { readonly jobId: string }) {
  const { ask } = useActions();
  const [details, setDetails] = useState<CaseDetails | null>(null);
  const [causes, setCauses] = useState<readonly Cause[]>([]);
  useEffect(() => {
    void ask('readCaseDetails', { jobId }).then(setDetails);
    void ask('listCauses', {}).then((found) => setCauses(found ?? []));
  }, [jobId, ask]);
  if (details === null) return null;
  const { causeKey, part, rail, gaveAway } = details;
  if (causeKey === null) return <p>No cause was picked from the list: kept, not counted.</p>;
  const cause = causes.find(({ key }) => key === causeKey)?.text ?? causeKey;
  const proof = proofOf(causeKey, details);
  return (
    <p>
      {cause[0]?.toUpperCase() + cause.slice(1)}
      {part !== '' && `, ${part}`}
      {rail !== '' && ` on ${rail}`}: {proof === 'unsolved' ? 'not solved' : proof}
      {proof === 'proved'
        ? ', later jobs learn from it.'
        : `, not counted: missing for a proof is ${missingProof(causeKey, details).join('; ')}.`}
      {gaveAway !== '' && ` Given away by ${gaveAway}.`}
    </p>
  );
}
