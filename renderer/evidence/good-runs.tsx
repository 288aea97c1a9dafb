import type { StageEvidence } from '../../core/contract/match-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';

/** The good runs of this board model that were kept before the run began. */
export function GoodRuns({ runs }: { runs: StageEvidence['goodRuns'] }) {
  const { replay } = useActions();
  if (runs.length === 0) {
    return <p className="quiet">No good run of this board, fed alike, was kept before it.</p>;
  }
  return (
    <section aria-label="Good runs">
      <h3>Good runs of this board, fed alike</h3>
      <ul className="good-runs">
        {runs.map((run) => (
          <li key={run.runId}>
            <button type="button" className="in-text" onClick={() => replay(run.runId)}>
              {run.jobNumber === null ? 'No job' : `Job ${run.jobNumber}`},{' '}
              {dayWords(run.startedAt)} {timeWords(run.startedAt)}
            </button>
            , held {formatQuantity(run.heldA, 'A', null, { digits: 3 })}
          </li>
        ))}
      </ul>
    </section>
  );
}
