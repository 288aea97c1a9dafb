import type { DonorBoard, ModelPart } from '../../core/donors/donor-board.ts';
import type { KnownFrom } from '../../core/parts/equivalence.ts';
import type { DonorReturnRow, DonorTakeRow } from './donor-tables.ts';
import type { Db } from './ledger-context.ts';

/** Boards on the shelves with what is left on each and what was taken, newest first. */
export async function donorBoards(db: Db): Promise<readonly DonorBoard[]> {
  const rows = await db
    .selectFrom('donor_boards')
    .selectAll()
    .where('gone_at', 'is', null)
    .orderBy('added_at', 'desc')
    .orderBy('id', 'desc')
    .execute();
  const takes = await db
    .selectFrom('donor_takes')
    .leftJoin('jobs', 'jobs.id', 'donor_takes.job_id')
    .select([
      'donor_takes.id',
      'donor_takes.donor_id',
      'donor_takes.designator',
      'donor_takes.text',
      'donor_takes.taken_at',
      'jobs.number',
    ])
    .orderBy('donor_takes.taken_at')
    .execute();
  const returns = await db
    .selectFrom('donor_returns')
    .leftJoin('jobs', 'jobs.id', 'donor_returns.job_id')
    .select([
      'donor_returns.donor_id',
      'donor_returns.designator',
      'donor_returns.returned_at',
      'donor_returns.why',
      'jobs.number',
    ])
    .orderBy('donor_returns.returned_at')
    .execute();
  const byModel = new Map<string, readonly ModelPart[]>();
  for (const key of new Set(rows.map((row) => row.board_key))) {
    byModel.set(key, await modelParts(db, key));
  }
  return rows.map((row) => {
    const taken = takes.filter((take) => take.donor_id === row.id);
    const gone = new Set(taken.map(({ designator }) => designator));
    return {
      id: row.id,
      boardModel: row.board_model,
      shelf: row.shelf,
      note: row.note,
      addedAt: row.added_at,
      left: (byModel.get(row.board_key) ?? []).filter(({ designator }) => !gone.has(designator)),
      returned: returns
        .filter(({ donor_id }) => donor_id === row.id)
        .map((back) => ({
          designator: back.designator,
          jobNumber: back.number,
          returnedAt: back.returned_at,
          why: back.why,
        })),
      taken: taken.map((take) => ({
        id: take.id,
        designator: take.designator,
        text: take.text,
        jobNumber: take.number,
        takenAt: take.taken_at,
      })),
    };
  });
}

/** What every board of a model carries, in the order it was typed. */
export async function modelParts(db: Db, boardKey: string): Promise<readonly ModelPart[]> {
  const rows = await db
    .selectFrom('model_parts')
    .selectAll()
    .where('board_key', '=', boardKey)
    .orderBy('position')
    .execute();
  return rows.map((row) => ({
    designator: row.designator,
    text: row.text,
    rail: row.rail,
    knownFrom: row.known_from as KnownFrom,
  }));
}

/** Puts a whole list in the place of the one before. */
export async function writeModelParts(
  db: Db,
  boardKey: string,
  parts: readonly ModelPart[],
): Promise<void> {
  await db.deleteFrom('model_parts').where('board_key', '=', boardKey).execute();
  for (const [position, part] of parts.entries()) {
    await db
      .insertInto('model_parts')
      .values({
        board_key: boardKey,
        position,
        designator: part.designator,
        text: part.text,
        rail: part.rail,
        known_from: part.knownFrom,
      })
      .execute();
  }
}

/** The take that a part of a job came from; undefined when it came from no donor board. */
export function takeOfPart(db: Db, partId: string): Promise<DonorTakeRow | undefined> {
  return db.selectFrom('donor_takes').selectAll().where('part_id', '=', partId).executeTakeFirst();
}

export function findTake(db: Db, id: string): Promise<DonorTakeRow | undefined> {
  return db.selectFrom('donor_takes').selectAll().where('id', '=', id).executeTakeFirst();
}

/** A part is gone from its board. Its unique key lets nobody take it twice, not even at once. */
export async function insertTake(db: Db, take: DonorTakeRow): Promise<void> {
  await db.insertInto('donor_takes').values(take).execute();
}

/** A taken part is on its board again; that it was away stays told. */
export async function moveTakeBack(db: Db, back: DonorReturnRow, takeId: string): Promise<void> {
  await db.deleteFrom('donor_takes').where('id', '=', takeId).execute();
  await db.insertInto('donor_returns').values(back).execute();
}
