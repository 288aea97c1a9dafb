import { z } from 'zod';
import type { JobLine } from '../job/job.ts';
import type { SearchWhy } from '../search/search-piece.ts';
import { answers } from './call.ts';
import { line } from './fields.ts';

/** A job that answers a search, with where it does. */
export interface FoundJob {
  readonly line: JobLine;
  readonly whys: readonly SearchWhy[];
}

export interface SearchAnswer {
  readonly found: readonly FoundJob[];
  /** Best first; else newest first: no words were asked for, or nearly every job has them. */
  readonly isWeighed: boolean;
  /** True when there are more than were asked for. */
  readonly hasMore: boolean;
  /** Jobs that the index does not hold yet: an old ledger is still being read. */
  readonly waiting: number;
}

/** Calls about searching the jobs: answered by the ledger worker. */
export const searchCalls = {
  /** Jobs in the book that answer every term of a typed search; refused with the character that is wrong. */
  searchJobs: answers<SearchAnswer>()(
    z.object({ search: line, limit: z.number().int().min(1).max(200) }),
  ),
  /** Makes the index of the searches anew; answers how many jobs will be read. */
  rebuildSearch: answers<number>()(z.object({})),
} as const;
