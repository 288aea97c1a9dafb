import type { Job } from '../../core/job/job.ts';
import { useActions } from '../state/use-desk.ts';

/** Whose board lies on the bench, at the head of its checklist; a press opens its page. */
export function JobName({ job }: { job: Job }) {
  const { openJob } = useActions();
  return (
    <button type="button" className="job-name" onClick={() => openJob(job.id)}>
      <span className="job-name-board">
        <span className="heard-only">Open in the job book: job </span>
        <span>{job.number}</span> {job.boardModel ?? 'Board unknown'}
      </span>
      <span className="quiet">
        {[job.serialNumber, job.symptom].filter((words) => words !== '').join(', ')}
      </span>
    </button>
  );
}
