import { useEffect, useState } from 'react';
import type { JobTerms, ShopSettings } from '../../core/shop/job-terms.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** What was agreed on a job and what the shop set, read again whenever a job changes; null until there. */
export function useTerms(jobId: string): { terms: JobTerms; shop: ShopSettings } | null {
  const version = useDeskState((state) => state.jobsVersion);
  const { ask } = useActions();
  const [known, setKnown] = useState<{ terms: JobTerms; shop: ShopSettings } | null>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job is read again
  useEffect(() => {
    let isWanted = true;
    void Promise.all([ask('readTerms', { jobId }), ask('readShop', {})]).then(([terms, shop]) => {
      if (isWanted && terms !== null && shop !== null) setKnown({ terms, shop });
    });
    return () => {
      isWanted = false;
    };
  }, [jobId, version, ask]);
  return known?.terms.jobId === jobId ? known : null;
}
