import type { Run } from '../../core/job/job.ts';
import { RoleChoice } from '../parts/role-choice.tsx';
import { useActions } from '../state/use-desk.ts';

/** What is done with a run that has just ended. */
export function FinishedActions({ run }: { run: Run }) {
  const { clearFinished, replay } = useActions();
  return (
    <div className="finished-actions">
      <RoleChoice run={run} />
      <button type="button" className="plain" onClick={() => replay(run.id)}>
        Replay, and where seen before
      </button>
      <button type="button" className="plain" onClick={clearFinished}>
        Back to live
      </button>
    </div>
  );
}
