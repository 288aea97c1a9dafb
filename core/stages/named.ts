import type { Span } from './span.ts';
import type { StageId } from './stage.ts';

/** A stretch with its name, before it is put into words for the report. */
export interface Named {
  readonly stage: StageId;
  readonly start: number;
  readonly end: number;
  readonly spans: readonly Span[];
  readonly confidence: number;
  readonly reason: string;
  readonly periodS: number | null;
}
