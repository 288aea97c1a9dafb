import { z } from 'zod';
import { answers } from './call.ts';
import { id } from './fields.ts';

/** How a record left the app. */
export interface RecordFile {
  readonly path: string;
  readonly pages: number;
}

export interface AppFacts {
  readonly version: string;
  readonly ledgerPath: string;
  readonly ledgerBytes: number;
}

/** Calls about the app itself: answered by main. */
export const appCalls = {
  appFacts: answers<AppFacts>()(z.object({})),
  /** Asks where to put it, then writes the job's record. Null = the person changed their mind. */
  exportRecord: answers<RecordFile | null>()(
    z.object({ jobId: id, paper: z.enum(['A4', 'Letter']) }),
  ),
  /** Asks where to put it, then writes the job's bag tag as a PDF. Null = the person changed their mind. */
  exportTag: answers<RecordFile | null>()(z.object({ jobId: id })),
  /** Tells main which batch the window has drawn, so that it never sends faster than that. */
  ackLive: answers<null>()(z.object({ sequence: z.number().int().min(0) })),
} as const;
