import type { Run } from '../../core/job/job.ts';
import { RunLine } from './run-line.tsx';

/** The runs of a job, newest first. */
export function JobRuns({ runs }: { runs: readonly Run[] }) {
  const powered = runs.filter((run) => run.kind === 'powered');
  return (
    <section className="job-runs" aria-label="Runs">
      <h2>Runs</h2>
      {powered.length === 0 && <p className="quiet">No run yet. Put the job on the bench.</p>}
      <ol>
        {powered.map((run) => (
          <RunLine key={run.id} run={run} />
        ))}
      </ol>
    </section>
  );
}
