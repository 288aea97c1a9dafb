import { useEffect, useState } from 'react';
import type { RailWalkAnswer } from '../../core/contract/board-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

export interface RailWalkState {
  readonly answer: RailWalkAnswer | null;
  readonly trouble: Trouble | null;
}

/** Where a job's rails stand, read again whenever the job, its board's state or the power changes. */
export function useRailWalk(jobId: string, state: string | null): RailWalkState {
  const version = useDeskState((desk) => desk.jobsVersion);
  const isPowered = useDeskState((desk) => desk.bench?.supply.outputOn === true);
  const { tryAsk } = useActions();
  const [seen, setSeen] = useState<RailWalkState>({ answer: null, trouble: null });
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is read again
  useEffect(() => {
    let isWanted = true;
    void tryAsk('railWalk', { jobId, state, isPowered }).then((found) => {
      if (!isWanted) return;
      if (found.ok) setSeen({ answer: found.value, trouble: null });
      else setSeen({ answer: null, trouble: found.trouble });
    });
    return () => {
      isWanted = false;
    };
  }, [jobId, state, isPowered, version, tryAsk]);
  return seen;
}
