import { itemDoneByPart } from '../../core/checklist/item-rules.ts';
import { itemsAfterFit } from '../../core/checklist/new-items.ts';
import { templateFor } from '../../core/checklist/template.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { NO_DETAILS } from '../../core/donors/donor-board.ts';
import type { ChecklistItem, Part } from '../../core/job/job.ts';
import { changeJobWith } from './change-job.ts';
import { checklistOf } from './item-handlers.ts';
import { insertItems, updateItem } from './item-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import { readSpecAgain, writeDetails } from './part-detail-store.ts';
import { findPart, insertPart, updatePart } from './part-store.ts';
import { readingsOfJob } from './reading-store.ts';
import { callRunsBefore, hasFit } from './run-roles.ts';

type PartHandlers = Handlers<Pick<typeof jobCalls, 'addPart' | 'changePart'>>;

/** The window's calls about parts. A fitted part asks for the same points again and a second run. */
export function createPartHandlers(context: LedgerContext): PartHandlers {
  const { newId } = context;

  const follow = async (db: Db, part: Part): Promise<void> => {
    const items = await checklistOf(db, part.jobId);
    const done = itemDoneByPart(items, part.action);
    if (done !== null) await updateItem(db, done, { state: 'done', at: part.at });
    if (part.action === 'fitted') await askAgain(db, part, items);
  };

  const askAgain = async (db: Db, part: Part, items: readonly ChecklistItem[]): Promise<void> => {
    const job = await findJobRow(db, part.jobId);
    const readings = await readingsOfJob(db, part.jobId);
    const wanted = itemsAfterFit(templateFor(job?.template ?? ''), readings, part.at);
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
    await insertItems(db, part.jobId, fresh, newId);
  };

  return {
    addPart: ({ jobId, part: fields }) =>
      changeJobWith(context, jobId, async (db) => {
        const part: Part = { ...fields, id: newId(), jobId, at: context.now() };
        if (part.action === 'fitted' && !(await hasFit(db, jobId))) await callRunsBefore(db, jobId);
        await insertPart(db, part);
        await writeDetails(db, part, NO_DETAILS);
        await follow(db, part);
        return part;
      }),

    async changePart({ id, part: fields }) {
      const before = await findPart(context.db, id);
      if (before === undefined) throw missing('part', id);
      return changeJobWith(context, before.jobId, async (db) => {
        await updatePart(db, id, fields);
        const part: Part = { ...before, ...fields };
        await readSpecAgain(db, part);
        if (before.action !== part.action) await follow(db, part);
        return part;
      });
    },
  };
}
