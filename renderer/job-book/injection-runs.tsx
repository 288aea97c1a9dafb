import type { Run } from '../../core/job/job.ts';
import { formatQuantity } from '../../core/units/format.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';

/** Runs in which current was put in: told apart from wake-ups, and never laid beside them. */
export function InjectionRuns({ runs }: { runs: readonly Run[] }) {
  const { replay } = useActions();
  const injected = runs.filter((run) => run.kind === 'injection');
  if (injected.length === 0) return null;
  return (
    <details className="injection-runs">
      <summary>Current put in to find a short ({injected.length})</summary>
      <ol>
        {injected.map((run) => (
          <li key={run.id} className="injection-run">
            <span>
              {dayWords(run.startedAt)}, {timeWords(run.startedAt)}, {formatDuration(run.durationS)}
            </span>
            <span>up to {formatQuantity(run.peakA, 'A', null, { digits: 3 })}</span>
            <button type="button" className="plain" onClick={() => replay(run.id)}>
              Replay
            </button>
          </li>
        ))}
      </ol>
    </details>
  );
}
