import { z } from 'zod';
import type { Run } from '../job/job.ts';
import type { StageReport } from '../stages/stage.ts';
import type { TraceColumns, TraceWindow } from '../trace/sample.ts';
import { answers } from './call.ts';
import { feed, id, line } from './fields.ts';

const tick = z.number().int().min(0).max(Number.MAX_SAFE_INTEGER);

/** Calls about runs that are kept: answered by the ledger worker. */
export const runCalls = {
  listRuns: answers<readonly Run[]>()(z.object({ jobId: id.nullable() })),
  readRun: answers<{ run: Run; report: StageReport }>()(z.object({ id })),
  /** The run, or a stretch of it, reduced to at most `columns` columns. */
  readWindow: answers<TraceWindow>()(
    z.object({ id, fromTick: tick, toTick: tick, columns: z.number().int().min(1).max(4000) }),
  ),
  /** Every sample of a stretch, at most `limit`, for replay and for a table. */
  readSamples: answers<TraceColumns>()(
    z.object({ id, fromTick: tick, toTick: tick, limit: z.number().int().min(1).max(200_000) }),
  ),
  /** Gives a loose run to a job, or takes it away again. */
  giveRun: answers<Run>()(z.object({ id, jobId: id.nullable() })),
  changeRun: answers<Run>()(
    z.object({ id, role: z.enum(['before', 'after']).nullable(), feed: feed.optional() }),
  ),
  addRunNote: answers<StageReport>()(
    z.object({ id, atS: z.number().finite().min(0), text: line.min(1) }),
  ),
  /** Earlier runs to lay under a live one: same board model first, newest first. */
  runsToCompare: answers<readonly { run: Run; jobNumber: number; boardModel: string | null }[]>()(
    z.object({ jobId: id.nullable() }),
  ),
  /** What the last start found unfinished and closed. */
  recovered: answers<readonly { run: Run; jobNumber: number | null; lostS: number }[]>()(
    z.object({}),
  ),
} as const;
