import { whyNotByHand } from '../../core/checklist/item-rules.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { ChecklistItem } from '../../core/job/job.ts';
import { changeJobWith } from './change-job.ts';
import { findItemRow, itemFromRow, itemsOfJob, updateItem } from './item-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { readingsOfJob } from './reading-store.ts';

type ItemHandlers = Handlers<
  Pick<typeof jobCalls, 'doItem' | 'skipItem' | 'reopenItem' | 'noteItem'>
>;

/** The window's calls about the steps of a job's checklist. */
export function createItemHandlers(context: LedgerContext): ItemHandlers {
  const itemOf = async (db: Db, jobId: string, itemId: string): Promise<ChecklistItem> => {
    const row = await findItemRow(db, itemId);
    if (row === undefined || row.job_id !== jobId) throw missing('item', itemId);
    const readings = await readingsOfJob(db, jobId);
    return itemFromRow(
      row,
      readings.filter((reading) => reading.itemId === itemId),
    );
  };

  const set = (
    jobId: string,
    itemId: string,
    to: (item: ChecklistItem) => Parameters<typeof updateItem>[2],
  ) =>
    changeJobWith(context, jobId, async (db) => {
      await updateItem(db, itemId, to(await itemOf(db, jobId, itemId)));
      return itemOf(db, jobId, itemId);
    });

  return {
    doItem: ({ jobId, itemId, note }) =>
      set(jobId, itemId, (item) => {
        const why = whyNotByHand(item, note);
        if (why !== null) {
          throw new WakelineError({
            code: 'bad-input',
            what: `"${item.title}" is not done by a tick alone`,
            where: `${item.phase}, ${item.title}`,
            todo: `${why}, or skip the step with a reason.`,
          });
        }
        return { state: 'done', at: context.now(), reason: note };
      }),

    skipItem: ({ jobId, itemId, reason }) =>
      set(jobId, itemId, (item) => {
        if (reason.trim().length < 3) {
          throw new WakelineError({
            code: 'bad-input',
            what: 'Skipping a step takes a reason',
            where: `${item.phase}, ${item.title}`,
            todo: 'Say why in a few words.',
          });
        }
        return { state: 'skipped', at: context.now(), reason: reason.trim() };
      }),

    noteItem: ({ jobId, itemId, note }) =>
      set(jobId, itemId, () => ({ state: 'open', at: null, reason: note })),

    reopenItem: ({ jobId, itemId }) => set(jobId, itemId, () => ({ state: 'open', at: null })),
  };
}

/** A job's checklist as it is stored now. */
export async function checklistOf(db: Db, jobId: string): Promise<readonly ChecklistItem[]> {
  return itemsOfJob(db, jobId, await readingsOfJob(db, jobId));
}
