import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import { linkComebacks } from './comeback-store.ts';
import { jobLines } from './job-list-store.ts';
import { findJobRow, jobOfRow, updateJobRow } from './job-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import type { LiveRuns } from './live-runs.ts';
import { missing } from './missing.ts';
import { deleteBinnedPictures } from './picture-file-store.ts';
import type { RunReader } from './run-reader.ts';
import { unindexJobs } from './search-index-store.ts';

type BinHandlers = Handlers<
  Pick<typeof jobCalls, 'binJob' | 'restoreJob' | 'listBin' | 'emptyBin'>
>;

/** The window's calls about the bin. Only emptying it deletes anything. */
export function createBinHandlers(
  context: LedgerContext,
  parts: {
    live: LiveRuns;
    reader: RunReader;
    reclaim: () => void;
    sweepPictures: () => Promise<void>;
  },
): BinHandlers {
  const { db, now, jobChanged } = context;

  const move = (id: string, binnedAt: number | null) =>
    db.transaction().execute(async (trx) => {
      const row = await findJobRow(trx, id);
      if (row === undefined) throw missing('job', id);
      await updateJobRow(trx, id, { binned_at: binnedAt });
      await linkComebacks(trx, [row.serial_key]);
    });

  return {
    async binJob({ id }) {
      if ([...parts.live.all()].some((run) => run.jobId === id)) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'A run of this job is being recorded',
          where: `job ${id}`,
          todo: 'Switch the output off first, then delete the job.',
        });
      }
      await move(id, now());
      jobChanged(id);
      return null;
    },

    async restoreJob({ id }) {
      await move(id, null);
      jobChanged(id);
      const row = await findJobRow(db, id);
      if (row === undefined) throw missing('job', id);
      return jobOfRow(db, row);
    },

    listBin: () => jobLines(db, { numbers: null, limit: null, binned: true }),

    async emptyBin() {
      const live = [...parts.live.all()].flatMap((run) => (run.jobId === null ? [] : [run.jobId]));
      let query = db
        .deleteFrom('jobs')
        .where('binned_at', 'is not', null)
        .returning(['id', 'number']);
      if (live.length > 0) query = query.where('id', 'not in', live);
      const gone = await query.execute();
      const pictures = await deleteBinnedPictures(db);
      await unindexJobs(
        db,
        gone.map(({ number }) => number),
      );
      parts.reader.forgetAll();
      if (gone.length > 0) parts.reclaim();
      await parts.sweepPictures();
      for (const { id } of gone) jobChanged(id);
      return gone.length + pictures;
    },
  };
}
