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
  /** What the bench supply shows while the board is fed; null when nobody looked. */
  readonly draw: 'none' | 'some' | 'limited' | null;
  /** Probability that no rail of the table is at fault, before anything was measured. */
  readonly elsewhere: number;
}

/** A board that does not wake and of which nothing else is known; the figure is common practice, no source. */
export const NO_PRIOR: FaultPrior = {
  liquid: false,
  factors: {},
  kindWeights: null,
  draw: null,
  elsewhere: 0.08,
};

/** Relative weights of kinds before anything is known (common practice, no source). */
export const KIND_WEIGHT: Readonly<Record<FaultKind, number>> = {
  short: 3,
  source: 2,
  enable: 1,
  link: 1,
  joined: 0.7,
};

/** The bench's own faults come before any of the board's: factor on an input that does not arrive (common practice, no source). */
export const BENCH_FIRST = 2.5;

/** After liquid, shorts and open links gain (common practice, no source). */
export const LIQUID_FACTOR: Readonly<Record<FaultKind, number>> = {
  short: 1.5,
  source: 1,
  enable: 1.3,
  link: 2,
  joined: 1,
};

/** Probability that a board has a second fault; liquid rarely stops at one (common practice, no source). */
export const SECOND_FAULT = { dry: 0.08, liquid: 0.3 } as const;
