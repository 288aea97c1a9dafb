import { updateItem } from './item-store.ts';
import type { Db } from './ledger-context.ts';

/**
 * Settles the steps of a job that need a picture: done once one is tied to the step, open again when
 * its last one went into the bin. Call it in the transaction that changed a picture.
 */
export async function settlePhotoItems(db: Db, jobId: string, at: number): Promise<void> {
  const items = await db
    .selectFrom('checklist_items')
    .select(['id', 'state'])
    .where('job_id', '=', jobId)
    .where('needs', '=', 'photo')
    .execute();
  if (items.length === 0) return;
  const pictured = await db
    .selectFrom('pictures')
    .select('item_id')
    .where('job_id', '=', jobId)
    .where('binned_at', 'is', null)
    .execute();
  const has = new Set(pictured.map(({ item_id }) => item_id));
  for (const { id, state } of items) {
    if (state === 'open' && has.has(id)) await updateItem(db, id, { state: 'done', at });
    if (state === 'done' && !has.has(id)) await updateItem(db, id, { state: 'open', at: null });
  }
}
