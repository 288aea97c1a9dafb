import { FreeReading } from '../checklist/free-reading.tsx';
import { JobLines } from '../job-book/job-lines.tsx';
import { useJobLines } from '../job-book/use-job-lines.ts';
import { useKey } from '../keys/use-key.ts';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** In place of the checklist while no job is open: take one in, or put one on the bench. */
export function NoJob({ isLoading }: { isLoading: boolean }) {
  const { ask, openJob } = useActions();
  const hasMeter = useDeskState((state) => state.bench?.meter.link === 'live');
  const lines = useJobLines('', 8);
  useKey('newJob', () => openJob(null));
  if (isLoading) return <p className="quiet">Reading the job…</p>;
  const open = lines.filter((line) => line.state !== 'closed');
  return (
    <section className="no-job" aria-label="Jobs that wait">
      <h2>No job on the bench</h2>
      <p className="quiet">
        The bench keeps the last 30 minutes anyway; a run can be given to a job afterwards.
      </p>
      <button type="button" className="plain strong" onClick={() => openJob(null)}>
        Take in a job <KeyCap>J</KeyCap>
      </button>
      {open.length > 0 && <h3>Put one on the bench</h3>}
      <JobLines lines={open} onOpen={(jobId) => void ask('openJobOnBench', { jobId })} />
      {hasMeter && <FreeReading jobId={null} hasKey />}
    </section>
  );
}
