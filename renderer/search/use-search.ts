import { useEffect, useMemo, useState } from 'react';
import type { SearchAnswer } from '../../core/contract/search-calls.ts';
import { parseSearch } from '../../core/search/parse-search.ts';
import type { ParsedSearch } from '../../core/search/search-query.ts';
import { localDay } from '../shop/shop-words.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Jobs that are shown of one search. */
const MOST = 20;
/** Reasons are worked out job by job: not for every letter of a word that is being typed. */
const STILL_MS = 120;
/** An old ledger is being read: how soon to look again. */
const AGAIN_MS = 1_000;

/** How a search was understood, and what answers it; null until it is there or while it is wrong. */
export function useSearch(search: string): {
  readonly parsed: ParsedSearch;
  readonly answer: SearchAnswer | null;
} {
  const version = useDeskState((state) => state.jobsVersion);
  const { tryAsk } = useActions();
  const [answer, setAnswer] = useState<SearchAnswer | null>(null);
  const [reads, setReads] = useState(0);
  const parsed = useMemo(() => parseSearch(search, localDay(Date.now())), [search]);
  const isAsked = parsed.ok && parsed.terms.length > 0;
  // biome-ignore lint/correctness/useExhaustiveDependencies: a changed job changes the answer
  useEffect(() => {
    let isWanted = true;
    let timer: ReturnType<typeof setTimeout> | undefined;
    if (!isAsked) setAnswer(null);
    else {
      const ask = () => tryAsk('searchJobs', { search, limit: MOST });
      const later = new Promise<void>((resolve) => {
        timer = setTimeout(resolve, STILL_MS);
      });
      void later.then(ask).then((told) => {
        if (!isWanted) return;
        setAnswer(told.ok ? told.value : null);
        if (told.ok && told.value.waiting > 0)
          timer = setTimeout(() => setReads(reads + 1), AGAIN_MS);
      });
    }
    return () => {
      isWanted = false;
      clearTimeout(timer);
    };
  }, [search, isAsked, version, reads, tryAsk]);
  return { parsed, answer };
}
