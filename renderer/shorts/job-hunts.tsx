import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { millivolts } from './hunt-words.ts';
import { useHunts } from './use-hunts.ts';
import './shorts.css';

/** The hunts of a job on its page: where each stands, and the way to it. */
export function JobHunts({ jobId }: { jobId: string }) {
  const { hunts } = useHunts(jobId);
  const onBench = useDeskState((state) => state.bench?.jobId ?? null);
  const { show } = useActions();
  if (hunts === null || hunts.length === 0) return null;
  return (
    <section className="job-hunts" aria-label="Short hunts">
      <h2>Short hunts</h2>
      <ul>
        {hunts.map(({ hunt, found }) => (
          <li key={hunt.id} className="job-hunt">
            <strong>{hunt.rail}</strong>{' '}
            <span className="quiet">
              {dayWords(hunt.beganAt)}, {timeWords(hunt.beganAt)}
            </span>
            <p>
              {hunt.finding?.claim ??
                found.gradient?.text ??
                `${hunt.points.length} points, nothing told yet.`}
            </p>
            {found.gradient !== null && hunt.finding === null && (
              <p className="quiet">
                Not kept as a finding. Lowest: {millivolts(found.gradient.ranked[0]?.netV)}.
              </p>
            )}
          </li>
        ))}
      </ul>
      {(onBench === null || onBench === jobId) && (
        <button type="button" className="plain" onClick={() => show('rails')}>
          Go on under Rails (Z)
        </button>
      )}
    </section>
  );
}
