import { z } from 'zod';
import type {
  BoardWhole,
  boardCalls,
  MeterFacts,
  ShopStates,
} from '../../core/contract/board-calls.ts';
import { meterFacts } from '../../core/contract/board-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import { WakelineError } from '../../core/errors.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import { layOutRails } from '../../core/rails/lay-out-rails.ts';
import { boardWithKnownGood } from '../../core/rails/learn-known-good.ts';
import { railCells } from '../../core/rails/rail-cells.ts';
import { readRailTable, writeRailTable } from '../../core/rails/rail-table.ts';
import { distinctStates, unknownStates } from '../../core/rails/shop-states.ts';
import { findBoard, findBoardRow, writeBoard } from './board-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { goodReadingsOfBoard } from './rail-reading-store.ts';
import { readSetting, writeSetting } from './setting-store.ts';

type BoardHandlers = Handlers<
  Pick<
    typeof boardCalls,
    | 'listBoards'
    | 'readBoard'
    | 'readBoardTable'
    | 'readRailCells'
    | 'saveBoard'
    | 'deleteBoard'
    | 'readMeterFacts'
    | 'saveMeterFacts'
    | 'readShopStates'
    | 'saveShopStates'
  >
>;

const METER_SETTING = 'meter-facts';
const STATES_SETTING = 'shop-states';
const UNKNOWN_METER: MeterFacts = {
  wires: 2,
  leadOhm: null,
  voltsPercent: null,
  ohmsPercent: null,
};

/** Leads and accuracy of the bench's meter as somebody told them. */
export async function readMeterFacts(db: Db): Promise<MeterFacts> {
  const kept = meterFacts.safeParse(await readSetting(db, METER_SETTING));
  return kept.success ? kept.data : UNKNOWN_METER;
}

/** Names of states as the shop wrote them down, and those that its boards use. */
export async function readShopStates(db: Db): Promise<ShopStates> {
  const kept = z.array(z.string()).safeParse(await readSetting(db, STATES_SETTING));
  const rows = await db.selectFrom('rails').select('states_json').distinct().execute();
  const used = rows.flatMap(({ states_json }) =>
    z.array(z.string()).parse(JSON.parse(states_json)),
  );
  return { defined: kept.success ? kept.data : [], used: distinctStates(used) };
}

/** The window's calls about boards and their tables. */
export function createBoardHandlers(context: LedgerContext): BoardHandlers {
  const { db, newId, now, jobChanged } = context;

  const readWhole = async (key: string | null): Promise<BoardWhole | null> => {
    const stated = await findBoard(db, key);
    if (stated === null) return null;
    const csv = writeRailTable(stated);
    const learned = boardWithKnownGood(stated, await goodReadingsOfBoard(db, key));
    // One stated value is typed as it was: a spread of nothing from one is how the table writes it.
    const cells = railCells(csv).map((row) => row.map((cell) => cell.replace(/ ± 0 \(1\)$/, '')));
    return { stated, learned, csv, cells };
  };

  return {
    async listBoards() {
      const rows = await db
        .selectFrom('boards')
        .selectAll()
        .select((eb) => [
          eb
            .selectFrom('rails')
            .whereRef('rails.board_id', '=', 'boards.id')
            .select(eb.fn.countAll<number>().as('n'))
            .as('rails'),
          eb
            .selectFrom('jobs')
            .whereRef('jobs.board_key', '=', 'boards.name_key')
            .where('jobs.binned_at', 'is', null)
            .select(eb.fn.countAll<number>().as('n'))
            .as('jobs'),
        ])
        .orderBy('name')
        .execute();
      return Promise.all(
        rows.map(async (row) => ({
          name: row.name,
          rails: row.rails ?? 0,
          jobs: row.jobs ?? 0,
          goodReadings: (await goodReadingsOfBoard(db, row.name_key)).length,
          updatedAt: row.updated_at,
        })),
      );
    },

    readBoard: ({ name }) => readWhole(boardKey(name)),

    async readBoardTable({ name, table }) {
      const { board, warnings: ofTable, rows } = readRailTable(table, name);
      const { defined } = await readShopStates(db);
      const warnings = [...ofTable, ...unknownStates(board, defined, rows)];
      return { board, warnings, places: layOutRails(board) };
    },

    readRailCells: ({ text }) => railCells(text),

    async saveBoard({ name, was, table }) {
      const { board } = readRailTable(table, name);
      const key = boardKey(name);
      const wasKey = was === null ? null : boardKey(was);
      await db.transaction().execute(async (trx) => {
        const isOther = wasKey !== null && wasKey !== key;
        if (isOther && (await findBoardRow(trx, wasKey)) === undefined) throw noBoard(was ?? '');
        if (wasKey !== key && (await findBoardRow(trx, key)) !== undefined) {
          throw new WakelineError({
            code: 'bad-input',
            what: `There is a board called ${name} already`,
            where: 'the name of the board',
            todo: 'Open that one, or give this one another name. Nothing was changed.',
          });
        }
        await writeBoard(trx, board, { wasKey: isOther ? wasKey : null, newId, at: now() });
      });
      await tellJobs(key);
      const saved = await readWhole(key);
      if (saved === null) throw noBoard(name);
      return saved;
    },

    async deleteBoard({ name }) {
      const key = boardKey(name);
      const row = await findBoardRow(db, key);
      if (row === undefined) throw noBoard(name);
      await db.deleteFrom('boards').where('id', '=', row.id).execute();
      await tellJobs(key);
      return null;
    },

    readMeterFacts: () => readMeterFacts(db),

    readShopStates: () => readShopStates(db),

    async saveShopStates({ states }) {
      await writeSetting(db, STATES_SETTING, distinctStates(states));
      return readShopStates(db);
    },

    async saveMeterFacts({ facts }) {
      await writeSetting(db, METER_SETTING, facts);
      return facts;
    },
  };

  /** Jobs on the board read otherwise now. */
  async function tellJobs(key: string | null): Promise<void> {
    const rows = await db
      .selectFrom('jobs')
      .select('id')
      .where('board_key', '=', key ?? '')
      .where('state', '!=', 'closed')
      .execute();
    for (const { id } of rows) jobChanged(id);
  }
}

function noBoard(name: string): WakelineError {
  return new WakelineError({
    code: 'not-found',
    what: `There is no board called ${name}`,
    where: 'the list of boards',
    todo: 'Read the list again; it may have been deleted or renamed. Nothing was changed.',
  });
}
