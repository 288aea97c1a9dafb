import { itemDoneByPart } from '../../core/checklist/item-rules.ts';
import { itemsAfterFit } from '../../core/checklist/new-items.ts';
import type { PartDetails } from '../../core/donors/donor-board.ts';
import { judgeFitted } from '../../core/donors/part-facts.ts';
import type { ChecklistItem, Part, PartFields } from '../../core/job/job.ts';
import { checklistOf } from './item-handlers.ts';
import { insertItems, updateItem } from './item-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { detailsOfJob, writeDetails, writeEquivalence } from './part-detail-store.ts';
import { insertPart, partsOfJob } from './part-store.ts';
import { readingsOfJob } from './reading-store.ts';
import { callRunsBefore, hasFit } from './run-roles.ts';
import { templateOfJob } from './template-of-job.ts';

/** What a part's line is written with. */
export interface NewPart {
  readonly jobId: string;
  readonly fields: PartFields;
  readonly details: PartDetails;
  /** The lifted part that this one is; null for any other. */
  readonly putBackOf: string | null;
}

/**
 * Writes a part down and lets its job follow: its step is done, what a fit calls for is asked, and
 * fitted parts are judged. In the caller's transaction.
 */
export async function writePart(db: Db, context: LedgerContext, fresh: NewPart): Promise<Part> {
  const { jobId, fields, details, putBackOf } = fresh;
  const part: Part = { ...fields, id: context.newId(), jobId, at: context.now() };
  if (part.action === 'fitted' && !(await hasFit(db, jobId))) await callRunsBefore(db, jobId);
  await insertPart(db, part);
  await writeDetails(db, part, details, putBackOf);
  await followPart(db, context, part);
  await judgeJob(db, jobId);
  return part;
}

/** What a part that was lifted or fitted does to its job's checklist. */
export async function followPart(db: Db, context: LedgerContext, part: Part): Promise<void> {
  const items = await checklistOf(db, part.jobId);
  const done = itemDoneByPart(items, part.action);
  if (done !== null) await updateItem(db, done, { state: 'done', at: part.at });
  if (part.action === 'fitted') await askAgain(db, context, part, items);
}

/** Judges every fitted part of a job anew and keeps the verdicts with the parts. */
export async function judgeJob(db: Db, jobId: string): Promise<void> {
  const parts = await partsOfJob(db, jobId);
  const kept = await detailsOfJob(db, jobId);
  for (const part of parts) {
    if (part.action === 'fitted') {
      await writeEquivalence(db, part.id, judgeFitted(part, parts, kept));
    }
  }
}

async function askAgain(
  db: Db,
  context: LedgerContext,
  part: Part,
  items: readonly ChecklistItem[],
): Promise<void> {
  const job = await findJobRow(db, part.jobId);
  if (job === undefined) throw missing('job', part.jobId);
  const readings = await readingsOfJob(db, part.jobId);
  const wanted = itemsAfterFit(await templateOfJob(db, job), readings, part.at);
  const isSame = (a: { step: string; place: string; quantity: string | null }) => {
    return (b: ChecklistItem) =>
      a.step === b.step &&
      a.quantity === b.quantity &&
      a.place.toLowerCase() === b.place.toLowerCase();
  };
  const again = wanted.map((item) => ({ item, there: items.find(isSame(item)) }));
  for (const { there } of again) {
    if (there !== undefined) await updateItem(db, there.id, { state: 'open', at: null });
  }
  const fresh = again.filter(({ there }) => there === undefined).map(({ item }) => item);
  await insertItems(db, part.jobId, fresh, context.newId);
}
