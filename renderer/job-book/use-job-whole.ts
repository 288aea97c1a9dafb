import { useEffect, useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** A job with all that hangs on it, read again whenever a job changes; null until it is there. */
export function useJobWhole(jobId: string): JobWhole | null {
  const version = useDeskState((state) => state.jobsVersion);
  const { ask } = useActions();
  const [whole, setWhole] = useState<JobWhole | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is read again
  useEffect(() => {
    let isWanted = true;
    void ask('readJob', { id: jobId }).then((found) => {
      if (isWanted && found !== null) setWhole(found);
    });
    return () => {
      isWanted = false;
    };
  }, [jobId, version, ask]);
  return whole;
}
