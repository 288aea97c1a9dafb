import type { Selectable } from 'kysely';
import { boardKey } from '../../core/job/same-thing.ts';
import type {
  BoardModel,
  FeedThrough,
  KnownGood,
  ProbePoint,
  Rail,
} from '../../core/rails/board-model.ts';
import type { BoardRow, RailPointRow, RailRow } from './board-tables.ts';
import type { Db } from './ledger-context.ts';
import { flag } from './tables.ts';

/** A board's row by its name; undefined when nobody has entered it. */
export function findBoardRow(
  db: Db,
  key: string | null,
): Promise<Selectable<BoardRow> | undefined> {
  return db
    .selectFrom('boards')
    .selectAll()
    .where('name_key', '=', key ?? '')
    .executeTakeFirst();
}

/** A board with its rails in the order of its table, as stated there; null when there is none. */
export async function findBoard(db: Db, key: string | null): Promise<BoardModel | null> {
  const row = await findBoardRow(db, key);
  if (row === undefined) return null;
  const rails = await db
    .selectFrom('rails')
    .selectAll()
    .where('board_id', '=', row.id)
    .orderBy('position')
    .execute();
  const points = await db
    .selectFrom('rail_points')
    .innerJoin('rails', 'rails.id', 'rail_points.rail_id')
    .selectAll('rail_points')
    .where('rails.board_id', '=', row.id)
    .orderBy('rail_points.position')
    .execute();
  return {
    name: row.name,
    rails: rails.map((rail) =>
      railFromRow(
        rail,
        points.filter((point) => point.rail_id === rail.id),
      ),
    ),
    ...factsOfBoardRow(row),
  };
}

/** What is stated of the board as a whole. */
export function factsOfBoardRow(row: Selectable<BoardRow>): Omit<BoardModel, 'name' | 'rails'> {
  return {
    statedInputV: row.stated_input_v,
    statedLimitA: row.stated_limit_a,
    runningA: row.running_a,
    runsFlat: row.runs_flat === null ? null : row.runs_flat === 1,
  };
}

function railFromRow(row: Selectable<RailRow>, points: readonly Selectable<RailPointRow>[]): Rail {
  return {
    name: row.name,
    nominalV: row.nominal_v,
    tolerance: row.tolerance,
    points: points.map(({ name, role, cost, volts }) => ({
      name,
      role: role as ProbePoint['role'],
      cost,
      volts,
    })),
    fedBy: namesIn(row.fed_by_json),
    through: row.through as FeedThrough,
    enabledBy: namesIn(row.enabled_by_json),
    states: namesIn(row.states_json),
    expectedOhms: known(row.ohms_median, row.ohms_spread, row.ohms_count),
    expectedDiodeV: known(row.diode_median_v, row.diode_spread_v, row.diode_count),
    isCore: row.core === 1,
  };
}

const namesIn = (json: string) => JSON.parse(json) as readonly string[];

function known(
  median: number | null,
  spread: number | null,
  count: number | null,
): KnownGood | null {
  return median === null ? null : { median, spread: spread ?? 0, count: count ?? 1 };
}

/**
 * Writes a board over the one with the same name, or over `was`. All its rails are replaced; call it
 * in a transaction.
 */
export async function writeBoard(
  db: Db,
  board: BoardModel,
  o: { readonly wasKey: string | null; readonly newId: () => string; readonly at: number },
): Promise<void> {
  const columns = {
    name: board.name,
    name_key: boardKey(board.name) ?? '',
    stated_input_v: board.statedInputV,
    stated_limit_a: board.statedLimitA,
    running_a: board.runningA,
    runs_flat: board.runsFlat === null ? null : flag(board.runsFlat),
    updated_at: o.at,
  };
  const before = await findBoardRow(db, o.wasKey ?? columns.name_key);
  const id = before?.id ?? o.newId();
  if (before === undefined) {
    await db
      .insertInto('boards')
      .values({ id, created_at: o.at, ...columns })
      .execute();
  } else {
    await db.updateTable('boards').set(columns).where('id', '=', id).execute();
    await db.deleteFrom('rails').where('board_id', '=', id).execute();
  }
  for (const [position, rail] of board.rails.entries()) {
    const railId = o.newId();
    await db
      .insertInto('rails')
      .values({
        id: railId,
        board_id: id,
        position,
        name: rail.name,
        nominal_v: rail.nominalV,
        tolerance: rail.tolerance,
        through: rail.through,
        fed_by_json: JSON.stringify(rail.fedBy),
        enabled_by_json: JSON.stringify(rail.enabledBy),
        states_json: JSON.stringify(rail.states),
        core: flag(rail.isCore),
        ohms_median: rail.expectedOhms?.median ?? null,
        ohms_spread: rail.expectedOhms?.spread ?? null,
        ohms_count: rail.expectedOhms?.count ?? null,
        diode_median_v: rail.expectedDiodeV?.median ?? null,
        diode_spread_v: rail.expectedDiodeV?.spread ?? null,
        diode_count: rail.expectedDiodeV?.count ?? null,
      })
      .execute();
    if (rail.points.length === 0) continue;
    const points = rail.points.map((point, at) => ({ rail_id: railId, position: at, ...point }));
    await db.insertInto('rail_points').values(points).execute();
  }
}
