import type { Anchor } from './band-anchor.ts';

/** Seconds between the points of a band. */
export const BAND_STEP_S = 0.2;
/** Seconds that a band reaches over. */
export const BAND_SPAN_S = 120;

/**
 * What good runs of one boot variant draw, at `(i + 0.5) * BAND_STEP_S` seconds after the anchor.
 * NaN where no good run has readings. The columns are equally long.
 */
export interface BandVariant {
  readonly low: Float64Array;
  readonly middle: Float64Array;
  readonly high: Float64Array;
  /** The good runs that it is made from. */
  readonly runIds: readonly string[];
}

/** The known-good band of a board model for one feed: a band for each way that it boots. */
export interface KnownGoodBand {
  readonly anchor: Anchor;
  /** Watts when the good runs and the run that is judged were not fed at the same volts. */
  readonly quantity: 'amps' | 'watts';
  readonly variants: readonly BandVariant[];
  /** All good runs in it. */
  readonly runs: number;
  /** What it rests on, in words: how many runs, how wide, compared in what. */
  readonly basis: string;
}

/** A band, or why there is none. Both say in words which good runs were left out, and why. */
export interface BandFound {
  readonly bands: readonly KnownGoodBand[];
  readonly why: string | null;
  readonly leftOut: string | null;
}

/** Shares by which one good run may differ from the next, in level and in time. */
const ONE_RUN_LEVEL = 0.25;
const ONE_RUN_TIME = 0.3;

/** Tolerance for a band of so many good runs: wide for one, narrowing with the root of their number. */
export function toleranceFor(runs: number): {
  readonly level: number;
  readonly time: number;
} {
  const root = Math.sqrt(Math.max(1, runs));
  return { level: ONE_RUN_LEVEL / root, time: ONE_RUN_TIME / root };
}
