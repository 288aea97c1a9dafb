import { useState } from 'react';
import type { CopyWork, MergePlan } from '../../core/contract/copy-calls.ts';
import { changesSomething, type MergeReport, mergeWords } from '../../core/copies/merge-report.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';

/** Another ledger, or an export, taken into this one: first what it would do, then it is done. */
export function MergePart({ busy }: { readonly busy: CopyWork | null }) {
  const { ask } = useActions();
  const [plan, setPlan] = useState<MergePlan | null>(null);
  const [words, setWords] = useState('');
  const look = async (from: 'folder' | 'file'): Promise<void> => {
    setWords('');
    const found = await ask('planMerge', { from });
    if (found !== null) setPlan(found);
  };
  const merge = async (token: string): Promise<void> => {
    const done = await ask('mergeLedger', { token });
    if (done === null) return;
    setPlan(null);
    setWords(
      `Taken in: ${mergeWords(done.report)} The ledger of before is kept as ${done.before} until the next time.`,
    );
  };
  const drop = async (token: string): Promise<void> => {
    await ask('dropMerge', { token });
    setPlan(null);
    setWords('Nothing was taken in.');
  };
  return (
    <section className="copies-part" aria-label="Take in another ledger">
      <h2>Take in another ledger</h2>
      <p className="quiet">
        Jobs, runs and boards of another bench come in once each: of a job that both have the newer
        stands, nothing is deleted, and taking the same in again changes nothing.
      </p>
      <div className="copies-keys">
        <button
          type="button"
          className="plain"
          disabled={busy !== null}
          onClick={() => void look('folder')}
        >
          From an exported folder
        </button>
        <button
          type="button"
          className="plain"
          disabled={busy !== null}
          onClick={() => void look('file')}
        >
          From a ledger file
        </button>
      </div>
      {plan !== null && (
        <div className="merge-plan">
          <h3>What it would do</h3>
          <p>{plan.source}</p>
          <p>{mergeWords(plan.report)}</p>
          <MergeTold report={plan.report} />
          <div className="copies-keys">
            {changesSomething(plan.report) && (
              <TwoPress
                words="Take it in"
                sure="Press again: it goes into this ledger"
                onSure={() => void merge(plan.token)}
              />
            )}
            <button type="button" className="plain" onClick={() => void drop(plan.token)}>
              Leave it
            </button>
          </div>
        </div>
      )}
      <p role="status" className="copies-words">
        {words}
      </p>
    </section>
  );
}

/** What a person should know of a merge: numbers that changed, things entered twice. */
function MergeTold({ report }: { readonly report: MergeReport }) {
  const { renumbered, told } = report;
  if (renumbered.length === 0 && told.length === 0) return null;
  const [first] = renumbered;
  return (
    <ul className="merge-told">
      {first !== undefined && (
        <li>
          {renumbered.length === 1
            ? `Job ${first.from} of the other ledger becomes job ${first.to} here: the number was given.`
            : `${renumbered.length} jobs get another number here, the first ${first.from} becomes ${first.to}: theirs were given.`}
        </li>
      )}
      {told.map((one) => (
        <li key={one}>{one}</li>
      ))}
    </ul>
  );
}
