import { openBeforeOhms } from '../../core/checklist/gates.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { ChecklistItem, Quantity, Reading } from '../../core/job/job.ts';
import { readingWords } from '../../core/job/reading-words.ts';
import { changeJobWith } from './change-job.ts';
import { checklistOf } from './item-handlers.ts';
import { findItemRow, updateItem } from './item-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { missing } from './missing.ts';
import {
  deleteReading,
  findReading,
  insertReading,
  readingsOfJob,
  updateReading,
} from './reading-store.ts';
import { findRunRow } from './run-store.ts';

type ReadingHandlers = Handlers<
  Pick<typeof jobCalls, 'addReading' | 'looseReadings' | 'giveReading' | 'forgetReading'>
>;

/** The window's calls about readings. A reading for a step does that step. */
export function createReadingHandlers(context: LedgerContext): ReadingHandlers {
  const { db, newId, now } = context;

  /** The item a reading is meant for; throws when it is not that job's, or not yet its turn. */
  const itemFor = async (
    from: Db,
    jobId: string,
    itemId: string,
    quantity: Quantity,
  ): Promise<ChecklistItem> => {
    const items = await checklistOf(from, jobId);
    const item = items.find((one) => one.id === itemId);
    if (item === undefined) throw missing('item', itemId);
    if (item.quantity !== null && item.quantity !== quantity) {
      throw new WakelineError({
        code: 'bad-input',
        what: `This step needs ${readingWords(item.quantity)}, not ${readingWords(quantity)}`,
        where: `${item.phase}, ${item.title}`,
        todo: 'Put the meter in that function and read again. The reading was not kept.',
      });
    }
    const first = quantity === 'volts' || quantity === 'amps' ? [] : openBeforeOhms(items);
    if (first.length > 0) {
      throw new WakelineError({
        code: 'gate-closed',
        what: `Not yet: ${first.map((one) => `"${one.title}"`).join(' and ')} first`,
        where: `${item.phase}, ${item.title}`,
        todo: 'Do that step, or skip it with a reason, then read again. The reading was not kept.',
      });
    }
    return item;
  };

  const doItem = async (from: Db, item: ChecklistItem, at: number): Promise<void> => {
    if (item.needs === 'reading') await updateItem(from, item.id, { state: 'done', at });
  };

  return {
    async addReading(fields) {
      if (fields.value === null && !fields.overload) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'The reading has no value and is not over range',
          where: fields.place === '' ? 'a new reading' : fields.place,
          todo: 'Type the value, or say that the meter showed over range.',
        });
      }
      const itemRow = fields.itemId === null ? undefined : await findItemRow(db, fields.itemId);
      if (fields.itemId !== null && itemRow === undefined) throw missing('item', fields.itemId);
      const jobId = fields.jobId ?? itemRow?.job_id ?? null;
      const run = fields.runId === null ? undefined : await findRunRow(db, fields.runId);
      const reading: Reading = {
        ...fields,
        id: newId(),
        jobId,
        // The ring may have let that stretch go; the reading itself is kept.
        runId: run?.id ?? null,
        takenAt: now(),
      };
      if (jobId === null) {
        await insertReading(db, reading);
        return reading;
      }
      return changeJobWith(context, jobId, async (trx) => {
        const item =
          fields.itemId === null ? null : await itemFor(trx, jobId, fields.itemId, fields.quantity);
        const placed = { ...reading, place: reading.place || item?.place || '' };
        await insertReading(trx, placed);
        if (item !== null) await doItem(trx, item, placed.takenAt);
        return placed;
      });
    },

    looseReadings: () => readingsOfJob(db, null),

    async giveReading({ readingId, jobId, itemId, place }) {
      const before = await findReading(db, readingId);
      if (before === undefined) throw missing('reading', readingId);
      const itemRow = itemId === null ? undefined : await findItemRow(db, itemId);
      if (itemId !== null && itemRow === undefined) throw missing('item', itemId);
      const to = jobId ?? itemRow?.job_id ?? null;
      const move = async (trx: Db) => {
        const item =
          to === null || itemId === null ? null : await itemFor(trx, to, itemId, before.quantity);
        await updateReading(trx, readingId, { job_id: to, item_id: itemId, place });
        if (item !== null) await doItem(trx, item, now());
        if (before.itemId !== null && before.itemId !== itemId) await leave(trx, before.itemId);
      };
      if (to === null) await db.transaction().execute(move);
      else await changeJobWith(context, to, move);
      if (before.jobId !== null && before.jobId !== to) {
        await changeJobWith(context, before.jobId, async () => {});
      }
      return (await findReading(db, readingId))!;
    },

    async forgetReading({ readingId }) {
      const before = await findReading(db, readingId);
      if (before === undefined) throw missing('reading', readingId);
      const forget = async (trx: Db) => {
        await deleteReading(trx, readingId);
        if (before.itemId !== null) await leave(trx, before.itemId);
      };
      if (before.jobId === null) await db.transaction().execute(forget);
      else await changeJobWith(context, before.jobId, forget);
      return null;
    },
  };
}

/** A reading step whose last reading was taken away is open again. */
async function leave(db: Db, itemId: string): Promise<void> {
  const left = await db
    .selectFrom('readings')
    .select('id')
    .where('item_id', '=', itemId)
    .limit(1)
    .execute();
  const item = await findItemRow(db, itemId);
  if (left.length === 0 && item?.needs === 'reading' && item.state === 'done') {
    await updateItem(db, itemId, { state: 'open', at: null });
  }
}
