import type { Handlers } from '../../core/contract/contract.ts';
import type { FoundJob, searchCalls } from '../../core/contract/search-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { parseSearch } from '../../core/search/parse-search.ts';
import type { SearchFact } from '../../core/search/search-piece.ts';
import type { SearchTerm } from '../../core/search/search-query.ts';
import { whyFound } from '../../core/search/why-found.ts';
import { findJobs } from './find-jobs.ts';
import { jobLines } from './job-list-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import type { SearchCatchUp } from './search-catch-up.ts';
import { searchPieces } from './search-pieces.ts';

/** Facts of one job that are looked through for why it was found. */
const MOST_FACTS = 5_000;

/** The day of a moment by this machine's clock, `YYYY-MM-DD`. */
export function dayOf(ms: number): string {
  const at = new Date(ms);
  const two = (n: number) => String(n).padStart(2, '0');
  return `${at.getFullYear()}-${two(at.getMonth() + 1)}-${two(at.getDate())}`;
}

/** The terms of a typed search; throws `bad-input` with the character that is wrong. */
export function searchTerms(search: string, nowMs: number): readonly SearchTerm[] {
  const parsed = parseSearch(search, dayOf(nowMs));
  if (parsed.ok) return parsed.terms;
  throw new WakelineError({
    code: 'bad-input',
    what: parsed.what,
    where: `character ${parsed.at + 1} of “${search}”`,
    todo: parsed.todo,
  });
}

/** The window's calls about searching. */
export function createSearchHandlers(
  context: LedgerContext,
  catchUp: SearchCatchUp,
): Handlers<typeof searchCalls> {
  const { db, now } = context;
  return {
    async searchJobs({ search, limit }) {
      const terms = searchTerms(search, now());
      const waiting = await catchUp.ready();
      const { numbers, isWeighed } = await findJobs(db, terms, { limit: limit + 1, order: 'best' });
      const shown = numbers.slice(0, limit);
      const lines = await jobLines(db, { numbers: shown, limit: null, binned: false });
      const byNumber = new Map(lines.map((line) => [line.number, line]));
      const found: FoundJob[] = [];
      for (const number of shown) {
        const line = byNumber.get(number);
        if (line === undefined) continue;
        const pieces = await searchPieces(db, line.id);
        found.push({ line, whys: whyFound(terms, pieces, await factsOf(db, number, terms)) });
      }
      return { found, isWeighed, hasMore: numbers.length > limit, waiting };
    },
    rebuildSearch: () => catchUp.rebuild(),
  };
}

/** A job's indexed facts, when a term asks for any. */
async function factsOf(
  db: Db,
  number: number,
  terms: readonly SearchTerm[],
): Promise<readonly SearchFact[]> {
  const isAsked = terms.some(
    ({ kind }) => kind === 'stage' || kind === 'amount' || kind === 'rail',
  );
  if (!isAsked) return [];
  const rows = await db
    .selectFrom('search_facts')
    .selectAll()
    .where('job_number', '=', number)
    .limit(MOST_FACTS)
    .execute();
  return rows.map((row) => ({
    kind: row.kind as SearchFact['kind'],
    word: row.word,
    verdict: row.verdict,
    amount: row.amount,
    volts: row.volts,
    refId: row.ref_id,
  }));
}
