import type { Run } from '../../core/job/job.ts';
import { TwoPress } from '../parts/two-press.tsx';
import { useActions } from '../state/use-desk.ts';
import { InjectionRuns } from './injection-runs.tsx';
import { RunLine } from './run-line.tsx';

/** The runs of a job, newest first. */
export function JobRuns({ runs }: { runs: readonly Run[] }) {
  const { ask } = useActions();
  const powered = runs.filter((run) => run.kind === 'powered');
  return (
    <section className="job-runs" aria-label="Runs" data-place="runs">
      <h2>Runs</h2>
      {powered.length === 0 && <p className="quiet">No run yet. Put the job on the bench.</p>}
      <ol>
        {powered.map((run) => (
          <RunLine key={run.id} run={run}>
            {run.endedAt !== null && (
              <TwoPress
                words="Take off this job"
                sure="Press again: the run becomes loose"
                onSure={() => void ask('giveRun', { id: run.id, jobId: null })}
              />
            )}
          </RunLine>
        ))}
      </ol>
      <InjectionRuns runs={runs} />
    </section>
  );
}
