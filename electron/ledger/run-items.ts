import { itemsDoneByRuns } from '../../core/checklist/item-rules.ts';
import { checklistOf } from './item-handlers.ts';
import { updateItem } from './item-store.ts';
import type { Db } from './ledger-context.ts';
import { partsOfJob } from './part-store.ts';
import { newestRunsOfJob } from './run-store.ts';

/** Ended runs that can do a step: earlier ones did theirs when they ended. */
const MOST_RUNS = 100;

/** Ticks the steps of a job that its runs have done; call it in the transaction that added one. */
export async function tickRunItems(db: Db, jobId: string, at: number): Promise<void> {
  const items = await checklistOf(db, jobId);
  if (!items.some(({ needs, state }) => needs === 'run' && state === 'open')) return;
  const runs = await newestRunsOfJob(db, jobId, MOST_RUNS);
  const done = itemsDoneByRuns(items, runs, await partsOfJob(db, jobId));
  for (const id of done) await updateItem(db, id, { state: 'done', at });
}
