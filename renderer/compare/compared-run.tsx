import type { ComparedRunFacts } from '../../core/contract/match-calls.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { feedWords } from '../parts/feed-words.ts';
import { useActions } from '../state/use-desk.ts';
import { RUN_DASHES, RUN_LETTERS } from './run-letters.ts';
import { runName } from './run-name.ts';

interface Props {
  readonly at: number;
  readonly facts: ComparedRunFacts;
  readonly onRemove: () => void;
}

/** A run of the comparison: its letter and line, what it is, and how it differs from the first. */
export function ComparedRun({ at, facts, onRemove }: Props) {
  const { replay } = useActions();
  const { run, lines, unlikeFeed } = facts;
  const letter = RUN_LETTERS[at];
  return (
    <li className={`compared-run compared-${at}`}>
      <svg viewBox="0 0 44 20" width="44" height="20" aria-hidden="true">
        <path d="M0 12h44" className="compared-line" strokeDasharray={RUN_DASHES[at]} />
      </svg>
      <div>
        <h2>
          <span className="compared-letter">{letter}</span> {runName(facts)}
          {run.pretend ? ', pretend bench' : ''}
        </h2>
        <p className="quiet">
          {formatQuantity(run.setV, 'V', null, { prefix: 0 })}, {feedWords(run.feed)}
        </p>
        {unlikeFeed !== null && (
          <p className="unlike">Not fed like A: {unlikeFeed}. Differences may come from that.</p>
        )}
        {at === 0 ? (
          <p>The others are held against this run.</p>
        ) : (
          <ul className="differences">
            {lines.length === 0 && <li>Does the same as A.</li>}
            {lines.map((line) => (
              <li key={line}>{line}</li>
            ))}
          </ul>
        )}
      </div>
      <div className="compared-keys">
        <button type="button" className="plain" onClick={() => replay(run.id)}>
          Replay {letter}
        </button>
        <button type="button" className="plain" onClick={onRemove}>
          Take {letter} out
        </button>
      </div>
    </li>
  );
}
