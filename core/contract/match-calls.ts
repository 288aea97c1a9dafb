import { z } from 'zod';
import type { BandFound } from '../bands/known-good-band.ts';
import type { StageLevels, Threshold } from '../bands/stage-evidence.ts';
import type { Outcome, Run } from '../job/job.ts';
import type { RunDifferences } from '../match/compare-runs.ts';
import { MOST_COMPARED } from '../match/compare-runs.ts';
import type { StageReport, Step } from '../stages/stage.ts';
import { answers } from './call.ts';
import { feed, id, line, volts } from './fields.ts';

/** An earlier run that drew like the one asked about. */
export interface LikeRun {
  readonly run: Run;
  readonly jobNumber: number | null;
  readonly boardModel: string | null;
  /** 0 = the same curve; below about 0.3 a person calls them alike. */
  readonly distance: number;
  /** How alike, in words. */
  readonly likeness: string;
  /** What was unlike about the feed, in words; null = fed alike. */
  readonly unlikeFeed: string | null;
  /** How its job ended; null while it is open, and for a loose run. */
  readonly outcome: Pick<Outcome, 'verdict' | 'cause'> | null;
}

export interface LikeRuns {
  readonly runs: readonly LikeRun[];
  /** Runs of the ledger that were looked through. */
  readonly among: number;
  /** Why there is none to show; null when there is. */
  readonly why: string | null;
}

/** A run of a comparison. */
export interface ComparedRunFacts extends RunDifferences {
  readonly run: Run;
  readonly report: StageReport;
  readonly jobNumber: number | null;
  readonly boardModel: string | null;
  /** What is unlike the first run's feed, in words; null = fed alike. */
  readonly unlikeFeed: string | null;
}

/** What the name of a stage rests on. */
export interface StageEvidence {
  readonly levels: StageLevels;
  readonly thresholds: readonly Threshold[];
  /** Changes of level in it. */
  readonly steps: readonly Step[];
  /** Good runs of the board model that were there before this run began, newest first. */
  readonly goodRuns: readonly {
    readonly runId: string;
    readonly jobNumber: number | null;
    readonly startedAt: number;
    readonly heldA: number | null;
  }[];
  /** The board's own note of a running level, used while no good run is kept. */
  readonly isFromNotes: boolean;
}

/** Calls that lay runs beside one another: answered by the ledger worker. */
export const matchCalls = {
  /** Where have I seen this? The nearest runs of the ledger, nearest first, whatever their job. */
  likeRuns: answers<LikeRuns>()(z.object({ runId: id, limit: z.number().int().min(1).max(20) })),
  /** The known-good bands of a job's board model (or of a model by name), for one feed. */
  bandFor: answers<BandFound>()(
    z.object({
      jobId: id.nullable(),
      boardModel: line.nullable(),
      feed,
      feedV: volts.nullable(),
      /** The run that will be judged: it is no witness for itself. */
      notRunId: id.nullable(),
    }),
  ),
  /** What the stage that begins at `startS` rests on: its levels, thresholds and good runs. */
  stageEvidence: answers<StageEvidence>()(
    z.object({ runId: id, startS: z.number().finite().min(0), endS: z.number().finite().min(0) }),
  ),
  /**
   * Names the stages of an ended run again with the good runs that its board has now. Earlier
   * classifications are kept.
   */
  classifyAgain: answers<StageReport>()(z.object({ runId: id })),
  /** The first run and how each of the others differs from it. */
  compareRuns: answers<readonly ComparedRunFacts[]>()(
    z.object({
      ids: z.array(id).min(1).max(MOST_COMPARED),
      alignBy: z.union([
        z.object({ by: z.enum(['output-on', 'wake-request']) }),
        z.object({ by: z.literal('step'), step: z.number().int().min(0).max(200) }),
      ]),
    }),
  ),
} as const;
