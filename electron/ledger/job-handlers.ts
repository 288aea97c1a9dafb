import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { Job } from '../../core/job/job.ts';
import { boardKey, serialKey } from '../../core/job/same-thing.ts';
import { searchWords } from '../../core/job/search-words.ts';
import { linkComebacks } from './comeback-store.ts';
import { jobLines } from './job-list-store.ts';
import { findJobRow, insertJobRow, jobColumns, jobOfRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { runsOfJob } from './run-store.ts';
import { takeJobNumber } from './setting-store.ts';
import type { JobRow } from './tables.ts';

type JobHandlers = Handlers<Pick<typeof jobCalls, 'createJob' | 'listJobs' | 'readJob'>>;

/** The window's calls about jobs themselves. */
export function createJobHandlers(context: LedgerContext): JobHandlers {
  const { db, newId, now, jobChanged } = context;

  const readJob = async (from: Db, id: string): Promise<Job> => {
    const row = await findJobRow(from, id);
    if (row === undefined) throw missing('job', id);
    return jobOfRow(from, row);
  };

  return {
    async createJob(fields) {
      const at = now();
      const id = newId();
      await db.transaction().execute(async (trx) => {
        await insertJobRow(trx, {
          ...(jobColumns(fields) as JobRow),
          id,
          number: await takeJobNumber(trx),
          board_key: boardKey(fields.boardModel),
          serial_key: serialKey(fields.serialNumber),
          state: 'open',
          comeback_of: null,
          created_at: at,
          updated_at: at,
          binned_at: null,
          search_text: '',
        });
        await linkComebacks(trx, [serialKey(fields.serialNumber)]);
      });
      jobChanged(id);
      return readJob(db, id);
    },

    listJobs: ({ search, limit }) =>
      jobLines(db, { words: searchWords(search), limit, binned: false }),

    async readJob({ id }) {
      return {
        job: await readJob(db, id),
        items: [],
        readings: [],
        parts: [],
        runs: await runsOfJob(db, id),
      };
    },
  };
}
