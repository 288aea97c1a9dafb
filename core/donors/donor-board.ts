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
  readonly returned: readonly DonorReturn[];
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
  readonly id: string;
  readonly designator: string;
  readonly text: string;
  /** Null when it went into no job, or into one that was deleted. */
  readonly jobNumber: number | null;
  readonly takenAt: number;
}

/** A part that was taken and went back: it was heated twice since it left the maker's oven. */
export interface DonorReturn {
  readonly designator: string;
  readonly jobNumber: number | null;
  readonly returnedAt: number;
  readonly why: string;
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

/**
 * What becomes of a part that is off the board: `no` = not told, it is to be replaced; running
 * without it for a test; off for good, as the customer agreed; the same part put back.
 */
export type LeftOff = 'no' | 'for-a-test' | 'for-good' | 'put-back';

/** What is told of a part beside its plain line. */
export interface PartDetails {
  readonly role: PartRole;
  readonly critical: boolean | null;
  readonly railV: number | null;
  readonly knownFrom: KnownFrom;
  readonly leftOff: LeftOff;
  /** Why it may stay off, in words. */
  readonly decision: string;
  /** Who agreed that it stays off, and how: "customer, by phone". */
  readonly agreedBy: string;
}

/**
 * What became of the place of a lifted part: something was fitted there, the same part was put back,
 * it stays off as agreed, it is off for a test, or nobody has said yet.
 */
export type PartPlaceState = 'fitted' | 'put-back' | 'stays-off' | 'off-for-a-test' | 'undecided';

/** A part of a job with its details, how it was read and whether it is an equal. */
export interface PartFacts {
  readonly partId: string;
  readonly details: PartDetails;
  readonly spec: PartSpec | null;
  /** For a fitted part whose place was lifted in the same job; null otherwise. */
  readonly equivalence: Equivalence | null;
  /** For a lifted part: what became of its place. */
  readonly place: PartPlaceState | null;
}

export const NO_DETAILS: PartDetails = {
  role: 'other',
  critical: null,
  railV: null,
  knownFrom: 'unknown',
  leftOff: 'no',
  decision: '',
  agreedBy: '',
};
