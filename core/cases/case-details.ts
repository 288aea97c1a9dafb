import type { LikelyCauses } from '../evidence/likely-causes.ts';
import type { Proof } from '../evidence/past-case.ts';
import type { Finding } from '../finding/finding.ts';

/** How a job ended, beside its plain outcome. */
export interface CaseDetails {
  /** Null = nobody knows. */
  readonly causeKey: string | null;
  readonly part: string;
  readonly rail: string;
  readonly gaveAway: string;
  readonly changed: boolean;
  readonly readingCameBack: boolean;
  readonly boardWoke: boolean;
}

/** A question with its answers, and the one that somebody gave. */
export interface AskedQuestion {
  readonly key: string;
  readonly text: string;
  readonly outcomes: readonly string[];
  /** Null = open. */
  readonly answer: string | null;
  /** True when a person said so, and may take it back; false when it follows from runs and readings. */
  readonly isTyped: boolean;
}

/** Likely causes of a job, with what they rest on. */
export interface JobEvidence {
  readonly likely: LikelyCauses;
  readonly findings: readonly Finding[];
  readonly questions: readonly AskedQuestion[];
  readonly counted: Readonly<Record<Proof, number>>;
  readonly tableSource: string;
}
