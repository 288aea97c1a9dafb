import { useEffect, useState } from 'react';
import type { JobLine } from '../../core/job/job.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** The job book's lines for a search, read again whenever a job changes. */
export function useJobLines(search: string, limit: number): readonly JobLine[] {
  const version = useDeskState((state) => state.jobsVersion);
  const { ask } = useActions();
  const [lines, setLines] = useState<readonly JobLine[]>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job changes the list
  useEffect(() => {
    let isWanted = true;
    void ask('listJobs', { search, limit }).then((found) => {
      if (isWanted && found !== null) setLines(found);
    });
    return () => {
      isWanted = false;
    };
  }, [search, limit, version, ask]);
  return lines;
}
