import type { Combination } from '../parts/combine-parts.ts';
import type { Equivalence, KnownFrom, PartRole } from '../parts/equivalence.ts';
import type { PartSpec } from '../parts/part-spec.ts';

/** A board kept for its parts, with what is left on it. */
export interface DonorBoard {
  readonly id: string;
  readonly boardModel: string;
  readonly shelf: string;
  readonly note: string;
  readonly addedAt: number;
  readonly left: readonly ModelPart[];
  readonly taken: readonly DonorTake[];
}

/** A part that every board of a model carries. */
export interface ModelPart {
  readonly designator: string;
  /** Kind, value and ratings as typed. */
  readonly text: string;
  /** '' = not known. */
  readonly rail: string;
  readonly knownFrom: KnownFrom;
}

export interface DonorTake {
  readonly designator: string;
  readonly text: string;
  /** Null when it went into no job, or into one that was deleted. */
  readonly jobNumber: number | null;
  readonly takenAt: number;
}

/** A part on a shelf judged against the one that is wanted. */
export interface DonorMatch {
  readonly donorId: string;
  readonly boardModel: string;
  readonly shelf: string;
  readonly part: ModelPart;
  readonly equivalence: Equivalence;
}

export interface DonorSearch {
  /** How the wanted part was read. */
  readonly wanted: PartSpec;
  /** Equal ones first, then those not ruled out; the others are counted. */
  readonly matches: readonly DonorMatch[];
  readonly notEqual: number;
  readonly lookedThrough: number;
  readonly combinations: readonly Combination[];
  /** Where the parts of the combinations sit, by their index. */
  readonly stock: readonly string[];
  /** Why nothing is shown; null when something is. */
  readonly why: string | null;
}

/** Whether a part that is off the board stays off: a test cannot be how a job ends. */
export type LeftOff = 'no' | 'for-a-test' | 'for-good';

/** What is told of a part beside its plain line. */
export interface PartDetails {
  readonly role: PartRole;
  readonly critical: boolean | null;
  readonly railV: number | null;
  readonly knownFrom: KnownFrom;
  readonly leftOff: LeftOff;
  /** Why it may stay off, in words. */
  readonly decision: string;
}

/** A part of a job with its details, how it was read and whether it is an equal. */
export interface PartFacts {
  readonly partId: string;
  readonly details: PartDetails;
  readonly spec: PartSpec | null;
  /** For a fitted part whose place was lifted in the same job; null otherwise. */
  readonly equivalence: Equivalence | null;
}

export const NO_DETAILS: PartDetails = {
  role: 'other',
  critical: null,
  railV: null,
  knownFrom: 'unknown',
  leftOff: 'no',
  decision: '',
};
