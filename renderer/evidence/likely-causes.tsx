import { useEffect, useState } from 'react';
import type { JobEvidence } from '../../core/cases/case-details.ts';
import type { CauseEstimate } from '../../core/evidence/likely-causes.ts';
import { formatPercent } from '../../core/units/format.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

const SHOWN = 5;

/** What earlier boards that looked like this one had, the bench's own faults first. */
export function LikelyCauses({ jobId }: { readonly jobId: string }) {
  const { ask } = useActions();
  const version = useDeskState((state) => state.jobsVersion);
  const [found, setFound] = useState<JobEvidence | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is weighed again
  useEffect(() => {
    let isWanted = true;
    void ask('likelyCauses', { jobId }).then((answer) => {
      if (isWanted && answer !== null) setFound(answer);
    });
    return () => {
      isWanted = false;
    };
  }, [jobId, version, ask]);
  return (
    <section className="likely-causes" aria-label="Likely causes" aria-busy={found === null}>
      <h2>Likely causes</h2>
      {found === null ? (
        <p className="quiet">Looking through the outcomes…</p>
      ) : (
        <Weighed jobId={jobId} evidence={found} />
      )}
    </section>
  );
}

function Weighed({ jobId, evidence }: { jobId: string; evidence: JobEvidence }) {
  const { likely, findings, questions, counted } = evidence;
  const { ask } = useActions();
  return (
    <>
      <p>{likely.summary}</p>
      <p className="quiet">
        {counted.proved} proved {counted.proved === 1 ? 'outcome' : 'outcomes'} in this ledger;{' '}
        {counted.guessed} guessed and {counted.unsolved} never solved are not counted in.
        {likely.basis !== 'ledger' && ` The rest is the starter table: ${evidence.tableSource}.`}
      </p>
      {findings.length > 0 && (
        <>
          <h3>What it rests on</h3>
          <ul className="cause-findings">
            {findings.map((finding) => (
              <li key={`${finding.key}-${finding.at}`}>{finding.claim}</li>
            ))}
          </ul>
          <ol className="cause-lines">
            {likely.causes.slice(0, SHOWN).map((estimate) => (
              <CauseLine key={estimate.cause.key} estimate={estimate} />
            ))}
          </ol>
        </>
      )}
      <details>
        <summary>Say what was looked at</summary>
        <div className="cause-questions">
          {questions.map(({ key, text, outcomes, answer, isTyped }) => (
            <Pick
              key={key}
              label={text}
              value={answer ?? ''}
              onPick={(outcome) =>
                void ask('answerQuestion', {
                  jobId,
                  question: key,
                  outcome: outcome === '' ? null : outcome,
                })
              }
            >
              <option value="">
                {answer !== null && isTyped ? 'take it back' : 'not looked at'}
              </option>
              {outcomes.map((outcome) => (
                <option key={outcome} value={outcome}>
                  {outcome.replaceAll('-', ' ')}
                </option>
              ))}
            </Pick>
          ))}
        </div>
      </details>
    </>
  );
}

function CauseLine({ estimate }: { readonly estimate: CauseEstimate }) {
  const { cause, probability, interval, like } = estimate;
  return (
    <li className="cause-line">
      <strong>
        {cause.isBench && 'Bench: '}
        {cause.text}
      </strong>
      <span className="cause-share">
        {formatPercent(probability)}{' '}
        <span className="quiet">
          ({formatPercent(interval.low)} to {formatPercent(interval.high)})
        </span>
      </span>
      {like.text !== '' && <p className="quiet">{like.text}</p>}
    </li>
  );
}
