import type { JobRecord } from './record-content.ts';

/** What the print page may ask of main: its record, once; and to say that it is drawn. */
export interface RecordBridge {
  readonly take: () => Promise<JobRecord>;
  /** `null` = drawn with its fonts; else what went wrong. */
  readonly drawn: (problem: string | null) => void;
}

/** Channels of the bridge. */
export const RECORD_TAKE = 'record:take';
export const RECORD_DRAWN = 'record:drawn';
