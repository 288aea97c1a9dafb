/** What can be wrong in a rail tree. */
export type FaultKind = 'source' | 'short' | 'joined' | 'enable' | 'link';

export interface Fault {
  /** Stable across sessions: `short:MAIN`, `joined:CORE:MAIN`. */
  readonly key: string;
  readonly kind: FaultKind;
  readonly rail: string;
  /** The feed of an open link, the other rail of two that are joined. */
  readonly other: string | null;
  /** A sentence without verdict: `a short to ground on MAIN`. */
  readonly text: string;
  /** How usual it is beside the others, before anything was measured. */
  readonly weight: number;
}

/** What is known of the job that shifts what is usual. */
export interface FaultPrior {
  readonly liquid: boolean;
  /** Factors by fault key, from what this shop proved on this board model; 1 when absent. */
  readonly factors: Readonly<Record<string, number>>;
  /** Relative weight of each kind; the usual ones when null. */
  readonly kindWeights: Readonly<Record<FaultKind, number>> | null;
}

export const NO_PRIOR: FaultPrior = { liquid: false, factors: {}, kindWeights: null };

/** Relative weights of kinds before anything is known (common practice, no source). */
export const KIND_WEIGHT: Readonly<Record<FaultKind, number>> = {
  short: 3,
  source: 2,
  enable: 1,
  link: 1,
  joined: 0.7,
};

/** After liquid, shorts and open links gain (common practice, no source). */
export const LIQUID_FACTOR: Readonly<Record<FaultKind, number>> = {
  short: 1.5,
  source: 1,
  enable: 1.3,
  link: 2,
  joined: 1,
};

/** Probability that a board has a second fault; liquid rarely stops at one (common practice, no source). */
export const SECOND_FAULT = { dry: 0.06, liquid: 0.3 } as const;
/** Probability that no rail of the table is at fault (common practice, no source). */
export const ELSEWHERE = 0.08;
