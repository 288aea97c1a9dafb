import { useEffect, useState } from 'react';
import type { AnswerOf } from '../../core/contract/call.ts';
import type { Calls } from '../../core/contract/contract.ts';
import { formatDuration } from '../../core/units/format-duration.ts';
import { useActions } from '../state/use-desk.ts';

/** Says what the last start found unfinished and closed. */
export function Recovered() {
  const { ask, replay } = useActions();
  const [found, setFound] = useState<AnswerOf<Calls['recovered']>>([]);
  useEffect(() => {
    void ask('recovered', {}).then((answer) => setFound(answer ?? []));
  }, [ask]);
  if (found.length === 0) return null;
  return (
    <section className="recovered" aria-label="Recovered runs">
      {found.map(({ run, jobNumber, lostS }) => (
        <p key={run.id}>
          <strong>Recovered a run</strong> of {jobNumber === null ? 'no job' : `job ${jobNumber}`}:{' '}
          {formatDuration(run.durationS)} kept, at most {formatDuration(lostS)} lost.{' '}
          <button type="button" className="in-text" onClick={() => replay(run.id)}>
            Replay it
          </button>
        </p>
      ))}
    </section>
  );
}
