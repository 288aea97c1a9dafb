import type { Insertable, Selectable } from 'kysely';
import type { Gate } from '../../core/checklist/gate.ts';
import type { NewItem } from '../../core/checklist/new-items.ts';
import type { ChecklistItem, Quantity, Reading } from '../../core/job/job.ts';
import { readInitialsOf } from './initials-store.ts';
import type { Db } from './ledger-context.ts';
import { flag, type ItemRow } from './tables.ts';

/** An item from its row and the readings that were taken for it. */
export function itemFromRow(row: Selectable<ItemRow>, readings: readonly Reading[]): ChecklistItem {
  return {
    id: row.id,
    step: row.step,
    phase: row.phase,
    title: row.title,
    needs: row.needs as ChecklistItem['needs'],
    quantity: row.quantity as Quantity | null,
    place: row.place,
    caution: row.caution,
    gate: gateOfRow(row),
    beforePower: row.before_power === 1,
    state: row.state as ChecklistItem['state'],
    at: row.at,
    reason: row.reason,
    doneBy: row.done_by,
    readings,
  };
}

/** Items from before gates were kept: those that held ohms back had these steps. */
const HELD_OHMS: readonly string[] = ['cells-unplugged', 'capacitors-discharged'];

function gateOfRow(row: Selectable<ItemRow>): Gate {
  if (row.gate !== null) return row.gate as Gate;
  if (row.before_power === 0) return 'nothing';
  return HELD_OHMS.includes(row.step) ? 'ohms' : 'power';
}

/** A job's checklist in order, each item with its own of `readings`. */
export async function itemsOfJob(
  db: Db,
  jobId: string,
  readings: readonly Reading[],
): Promise<readonly ChecklistItem[]> {
  const rows = await db
    .selectFrom('checklist_items')
    .selectAll()
    .where('job_id', '=', jobId)
    .orderBy('position')
    .orderBy('id')
    .execute();
  return rows.map((row) =>
    itemFromRow(
      row,
      readings.filter((reading) => reading.itemId === row.id),
    ),
  );
}

export function findItemRow(db: Db, id: string): Promise<Selectable<ItemRow> | undefined> {
  return db.selectFrom('checklist_items').selectAll().where('id', '=', id).executeTakeFirst();
}

export async function insertItems(
  db: Db,
  jobId: string,
  items: readonly NewItem[],
  newId: () => string,
): Promise<void> {
  if (items.length === 0) return;
  const rows = items.map((item) => ({
    id: newId(),
    job_id: jobId,
    position: item.position,
    step: item.step,
    phase: item.phase,
    title: item.title,
    needs: item.needs,
    quantity: item.quantity,
    place: item.place,
    caution: item.caution,
    before_power: flag(item.beforePower),
    state: item.state,
    at: item.at,
    reason: item.reason,
    gate: item.gate,
    done_by: item.doneBy,
  }));
  await db.insertInto('checklist_items').values(rows).execute();
}

/** Changes an item; one that is settled gets the bench's initials, one that opens loses them. */
export async function updateItem(
  db: Db,
  id: string,
  columns: Partial<Insertable<ItemRow>>,
): Promise<void> {
  const { state } = columns;
  const by =
    state === undefined ? {} : { done_by: state === 'open' ? '' : await readInitialsOf(db) };
  await db
    .updateTable('checklist_items')
    .set({ ...columns, ...by })
    .where('id', '=', id)
    .execute();
}

export async function deleteItems(db: Db, ids: readonly string[]): Promise<void> {
  if (ids.length === 0) return;
  await db.deleteFrom('checklist_items').where('id', 'in', ids).execute();
}
