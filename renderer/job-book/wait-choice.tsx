import type { Job } from '../../core/job/job.ts';
import { WAITING_FOR, WAITING_WORDS } from '../../core/job/waiting-for.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions } from '../state/use-desk.ts';

/** Lets a job wait, for something that is said, or opens it again. */
export function WaitChoice({ job }: { job: Job }) {
  const { ask } = useActions();
  if (job.state !== 'open') {
    return (
      <button
        type="button"
        className="plain"
        onClick={() => void ask('setJobState', { id: job.id, state: 'open' })}
      >
        Open again
      </button>
    );
  }
  const wait = (picked: string): void => {
    const waitingFor = WAITING_FOR.find((word) => word === picked);
    if (waitingFor !== undefined) void ask('letWait', { jobId: job.id, waitingFor });
    else if (picked === 'other') void ask('setJobState', { id: job.id, state: 'waiting' });
  };
  return (
    <Pick label="Let it wait" isQuiet value="" onPick={wait}>
      <option value="">Let it wait…</option>
      {WAITING_FOR.map((word) => (
        <option key={word} value={word}>
          for {WAITING_WORDS[word]}
        </option>
      ))}
      <option value="other">for something else</option>
    </Pick>
  );
}
