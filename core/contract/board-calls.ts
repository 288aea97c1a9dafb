import { z } from 'zod';
import type { Reading } from '../job/job.ts';
import type { BoardModel } from '../rails/board-model.ts';
import type { BoardWarning } from '../rails/check-board.ts';
import type { JobWalk } from '../rails/job-walk.ts';
import type { RailPlace } from '../rails/lay-out-rails.ts';
import { answers } from './call.ts';
import { id, line, readingFields } from './fields.ts';

/** A board as a line of the list. */
export interface BoardLine {
  readonly name: string;
  readonly rails: number;
  /** Jobs that name it, in the bin or not counted. */
  readonly jobs: number;
  /** Readings marked as from good boards. */
  readonly goodReadings: number;
  readonly updatedAt: number;
}

/** A board as its table states it, and with what good boards taught. */
export interface BoardWhole {
  readonly stated: BoardModel;
  readonly learned: BoardModel;
  /** The stated table as CSV, to copy out. */
  readonly csv: string;
  /** Its rows as cells in the order of `RAIL_COLUMNS`. */
  readonly cells: readonly (readonly string[])[];
}

/** A table that was read: nothing is stored. */
export interface CheckedBoard {
  readonly board: BoardModel;
  readonly warnings: readonly BoardWarning[];
  readonly places: readonly RailPlace[];
}

/** Leads and accuracy of the meter at this bench; null = not known. */
export const meterFacts = z.object({
  wires: z.union([z.literal(2), z.literal(4)]),
  leadOhm: z.number().finite().min(0).max(10).nullable(),
  voltsPercent: z.number().finite().min(0).max(20).nullable(),
  ohmsPercent: z.number().finite().min(0).max(20).nullable(),
});
export type MeterFacts = z.infer<typeof meterFacts>;

/** The rails of a job as they stand. */
export interface RailWalkAnswer {
  /** Null when the job names no board, or one whose table nobody has entered. */
  readonly board: BoardModel | null;
  readonly boardName: string | null;
  readonly places: readonly RailPlace[];
  readonly states: readonly string[];
  readonly job: JobWalk | null;
  readonly goodIds: readonly string[];
  /** Readings that stand on no rail of the board. */
  readonly alone: readonly Reading[];
  readonly cannotReach: readonly string[];
  readonly meter: MeterFacts;
}

/** Names of the states that boards can be in, as this shop says them. */
export interface ShopStates {
  /** As the shop wrote them down; empty when it did not. */
  readonly defined: readonly string[];
  /** Names that its boards use. */
  readonly used: readonly string[];
}

const railPoint = z.enum(['output', 'input', 'enable']);
const table = z.string().max(400_000);

/** Calls about boards, their rails and walking them: answered by the ledger worker. */
export const boardCalls = {
  listBoards: answers<readonly BoardLine[]>()(z.object({})),
  /** A board by its name; null when nobody has entered it. */
  readBoard: answers<BoardWhole | null>()(z.object({ name: line })),
  /** Reads a table and stores nothing; refuses with `bad-input` naming the row. */
  readBoardTable: answers<CheckedBoard>()(z.object({ name: line, table })),
  /** Rows of cells from whatever was pasted, in the order of `RAIL_COLUMNS`. */
  readRailCells: answers<readonly (readonly string[])[]>()(z.object({ text: table })),
  /** Saves a whole table over the board of that name, or over `was` when it is renamed. */
  saveBoard: answers<BoardWhole>()(
    z.object({ name: line.min(1, 'give the board a name'), was: line.nullable(), table }),
  ),
  deleteBoard: answers<null>()(z.object({ name: line })),
  readMeterFacts: answers<MeterFacts>()(z.object({})),
  saveMeterFacts: answers<MeterFacts>()(z.object({ facts: meterFacts })),
  readShopStates: answers<ShopStates>()(z.object({})),
  saveShopStates: answers<ShopStates>()(z.object({ states: z.array(line.min(1)).max(40) })),
  /** `state` is the one the board is in now; null when nobody names one. */
  railWalk: answers<RailWalkAnswer>()(
    z.object({ jobId: id, state: line.nullable(), isPowered: z.boolean() }),
  ),
  /** Keeps a reading on a rail of the job's board. */
  addRailReading: answers<Reading>()(
    z.object({
      reading: readingFields.extend({ jobId: id }),
      rail: line.min(1),
      point: railPoint,
      against: line.nullable(),
      state: line.nullable(),
      powered: z.boolean(),
    }),
  ),
  /** Marks a reading as from a good board, or takes the mark back. */
  markReadingGood: answers<null>()(z.object({ readingId: id, good: z.boolean() })),
  /** Says that a measurement cannot be reached in a job, or that it can after all. */
  cannotReach: answers<null>()(
    z.object({ jobId: id, measurement: line.min(1), cannot: z.boolean() }),
  ),
} as const;
