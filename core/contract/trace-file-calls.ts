import { z } from 'zod';
import type { Run } from '../job/job.ts';
import { answers } from './call.ts';
import { feed, id } from './fields.ts';

export const TRACE_FORMATS = ['csv', 'jsonl', 'parquet'] as const;
export type TraceFormat = (typeof TRACE_FORMATS)[number];

/** A trace that was written to a file. */
export interface TraceFile {
  readonly path: string;
  readonly samples: number;
  readonly bytes: number;
}

/** A trace file that became a run. */
export interface ImportedTrace {
  readonly run: Run;
  /** What a person should check: guesses about the layout, rows that were left out. */
  readonly notes: readonly string[];
}

/** How far reading a trace file is. */
export interface TraceProgress {
  readonly readBytes: number;
  readonly totalBytes: number;
  readonly samples: number;
}

/** What main tells the window while a trace file is read. */
export interface TraceFileEvents {
  traceProgress: TraceProgress;
}

/** Calls that bring traces out of the ledger and into it: main asks for the file, the ledger's worker works. */
export const traceFileCalls = {
  /** Asks where to put it, then writes every sample: whole or nothing. Null = changed their mind. */
  exportRun: answers<TraceFile | null>()(z.object({ id, format: z.enum(TRACE_FORMATS) })),
  /** Asks for a trace file and keeps it as a run of a job. Tells `traceProgress`. Null = changed their mind. */
  importTrace: answers<ImportedTrace | null>()(z.object({ jobId: id.nullable(), feed })),
} as const;
