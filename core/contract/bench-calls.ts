import { z } from 'zod';
import type { ShelfBoard } from '../bench-model/shelf-board.ts';
import type { Trouble } from '../errors.ts';
import type { Feed, Quantity, Run } from '../job/job.ts';
import type { Mark, StageReport } from '../stages/stage.ts';
import type { Regulation } from '../trace/sample.ts';
import { answers } from './call.ts';
import { amps, feed, id, line, quantity, volts } from './fields.ts';

/** How an instrument is reached. */
export const instrumentAddress = z.discriminatedUnion('by', [
  z.object({ by: z.literal('pretend') }),
  z.object({
    by: z.literal('serial'),
    path: line.min(1),
    baud: z.number().int().min(300).max(4_000_000),
  }),
  z.object({ by: z.literal('tcp'), host: line.min(1), port: z.number().int().min(1).max(65_535) }),
]);
export type InstrumentAddress = z.infer<typeof instrumentAddress>;

export const instrumentRole = z.enum(['supply', 'meter']);
export type InstrumentRole = z.infer<typeof instrumentRole>;

export type LinkState = 'none' | 'connecting' | 'live' | 'lost';

/** What the bench knows of its supply right now. */
export interface SupplyState {
  readonly link: LinkState;
  readonly address: InstrumentAddress | null;
  readonly identity: string;
  readonly trouble: Trouble | null;
  readonly outputOn: boolean | null;
  readonly canSwitch: boolean;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly maxV: number | null;
  readonly maxA: number | null;
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: Regulation | null;
  /** Digits after the point that the instrument shows. */
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
  readonly pollHz: number;
}

/** The meter's newest reading. */
export interface MeterState {
  readonly link: LinkState;
  readonly address: InstrumentAddress | null;
  readonly identity: string;
  readonly trouble: Trouble | null;
  readonly quantity: Quantity | null;
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number;
  readonly pollHz: number;
}

/** The pretend bench's hands: only there while the pretend bench is in use. */
export interface PretendState {
  readonly board: string | null;
  readonly probeAt: string | null;
  /** Where the supply's leads were moved to; null = at the board's input. */
  readonly clippedAt: string | null;
  readonly partsReplaced: readonly string[];
  readonly shelf: readonly ShelfBoard[];
}

/** The whole bench as the window sees it. Sent on every change, at most 10 times a second. */
export interface BenchState {
  readonly supply: SupplyState;
  readonly meter: MeterState;
  readonly pretend: PretendState | null;
  /** The job that new runs and readings go to. */
  readonly jobId: string | null;
  readonly feed: Feed;
  /** The run being recorded, powered or idle. */
  readonly run: Run | null;
  readonly watcherReady: boolean;
}

/** A port that could hold an instrument. */
export interface PortLine {
  readonly path: string;
  readonly about: string;
}

/** Calls that act on the bench: answered by main. */
export const benchCalls = {
  benchState: answers<BenchState>()(z.object({})),
  listPorts: answers<{ ports: readonly PortLine[]; why: string | null }>()(z.object({})),
  connect: answers<BenchState>()(z.object({ role: instrumentRole, address: instrumentAddress })),
  disconnect: answers<BenchState>()(z.object({ role: instrumentRole })),
  /** Which job new runs go to; null = none (the bench still records). */
  openJobOnBench: answers<BenchState>()(z.object({ jobId: id.nullable() })),
  setFeed: answers<BenchState>()(z.object({ feed })),
  /** Refuses with `needs-confirmation` above the board's stated input unless `confirmed`. */
  setVolts: answers<BenchState>()(z.object({ volts, confirmed: z.boolean() })),
  setLimit: answers<BenchState>()(z.object({ amps })),
  /** Refuses with `gate-closed` while steps before power are open, or the watcher is not ready. */
  outputOn: answers<BenchState>()(z.object({})),
  /** Never asks, never waits for anything else. */
  outputOff: answers<BenchState>()(z.object({})),
  mark: answers<Mark>()(z.object({ mark: z.enum(['wake-request', 'note']), text: line })),
  /** Puts the meter in a function; refuses ohms and diode while output is on. */
  meterFunction: answers<BenchState>()(z.object({ quantity })),
  /** The pretend bench's hands: put a board on, touch a point, move the leads, press its button, replace a part. */
  hands: answers<BenchState>()(
    z.discriminatedUnion('do', [
      z.object({ do: z.literal('put-board'), board: line }),
      z.object({ do: z.literal('probe'), point: line.nullable() }),
      /** Moves the supply's leads to a point, to each other, or back to the input (null). */
      z.object({ do: z.literal('clip'), point: line.nullable() }),
      z.object({ do: z.literal('press-wake') }),
      z.object({ do: z.literal('replace-part'), part: line }),
    ]),
  ),
} as const;

/** A batch of the live feed. Columns of equal length; NaN = not told. Acknowledged by `ackLive`. */
export interface LiveBatch {
  readonly sequence: number;
  readonly runId: string;
  /** True on the first batch of a run: throw away what was drawn. */
  readonly fresh: boolean;
  readonly ticks: Float64Array;
  readonly volts: Float64Array;
  readonly amps: Float64Array;
  readonly regulation: Uint8Array;
}

/** What main tells the window: past facts. */
export interface BenchEvents {
  benchChanged: BenchState;
  liveBatch: LiveBatch;
  stagesChanged: { readonly runId: string; readonly report: StageReport };
  runEnded: { readonly run: Run; readonly report: StageReport };
  jobChanged: { readonly jobId: string };
  alarmRaised: Trouble;
}
