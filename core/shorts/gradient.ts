/** Millivolt readings at one point of the rail while a known current flows. All in volts. */
export interface GradientPoint {
  readonly name: string;
  /** Reading at the first current. */
  readonly atFirstV: number;
  /** Reading with no current, same probes, same place; null when not taken. */
  readonly atZeroV: number | null;
  /** Reading at the second current; null when not taken. */
  readonly atSecondV: number | null;
  /** Along the track from the point of injection, mm; null when not known. */
  readonly alongMm: number | null;
  /** Place on the board's photo, 0 to 1 each; null when not placed. */
  readonly onPhoto: { readonly x: number; readonly y: number } | null;
}

export interface GradientInput {
  readonly rail: string;
  /** Where the other probe stays: the return, named. Readings fall towards the short. */
  readonly reference: string;
  readonly firstA: number;
  /** Null when only one current was used. */
  readonly secondA: number | null;
  /** One standard deviation of the meter on this range, volts. */
  readonly meterSigmaV: number;
  /** One standard deviation of the currents, amps: what a drop may miss its double by. */
  readonly ampsSigmaA: number;
  readonly points: readonly GradientPoint[];
}

/** A point with what the current alone drops there. */
export interface RankedPoint {
  readonly name: string;
  /** Reading less the zero-current reading, volts. */
  readonly netV: number;
  readonly sigmaV: number;
  /** `netV` over the current: ohms from here to the reference. */
  readonly ohm: number;
  /** Cannot be told from the lowest. */
  readonly isTied: boolean;
  /** False when doubling the current did not double the drop; null when not tried. */
  readonly isLinear: boolean | null;
  readonly arithmetic: string;
}

export interface Gradient {
  readonly verdict: 'nearest' | 'tie' | 'cannot-tell';
  /** Lowest first: the current goes to ground at or beyond the first. */
  readonly ranked: readonly RankedPoint[];
  readonly nearest: readonly string[];
  /** Along the track, mm, where the slope meets the floor; null without places or slope. */
  readonly kneeMm: number | null;
  /** Current in amps at which the two lowest would come apart; null when they already do. */
  readonly neededA: number | null;
  readonly text: string;
  readonly notes: readonly string[];
}
