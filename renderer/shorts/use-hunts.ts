import { useCallback, useEffect, useState } from 'react';
import type { HuntWhole } from '../../core/contract/hunt-calls.ts';
import type { Trouble } from '../../core/errors.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** The hunts of a job, read again when a job changed; null until they are there. */
export function useHunts(jobId: string): {
  readonly hunts: readonly HuntWhole[] | null;
  readonly trouble: Trouble | null;
  readonly read: () => Promise<void>;
} {
  const version = useDeskState((state) => state.jobsVersion);
  const { tryAsk } = useActions();
  const [hunts, setHunts] = useState<readonly HuntWhole[] | null>(null);
  const [trouble, setTrouble] = useState<Trouble | null>(null);
  const read = useCallback(async () => {
    const answer = await tryAsk('listHunts', { jobId });
    if (answer.ok) setHunts(answer.value);
    setTrouble(answer.ok ? null : answer.trouble);
  }, [jobId, tryAsk]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is read again
  useEffect(() => void read(), [read, version]);
  return { hunts, trouble, read };
}
