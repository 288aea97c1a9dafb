import { itemsDoneByRuns } from '../../core/checklist/item-rules.ts';
import { checklistOf } from './item-handlers.ts';
import { updateItem } from './item-store.ts';
import type { Db } from './ledger-context.ts';
import { partsOfJob } from './part-store.ts';
import { runsOfJob } from './run-store.ts';

/** Ticks the steps of a job that its runs have done; call it in the transaction that added one. */
export async function tickRunItems(db: Db, jobId: string, at: number): Promise<void> {
  const done = itemsDoneByRuns(
    await checklistOf(db, jobId),
    await runsOfJob(db, jobId),
    await partsOfJob(db, jobId),
  );
  for (const id of done) await updateItem(db, id, { state: 'done', at });
}
