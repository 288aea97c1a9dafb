/** What a meter may be off by: `percent` of the reading plus `offset` in the reading's base unit. */
export interface MeterAccuracy {
  readonly percent: number;
  readonly offset: number;
}

/** One reading on a rail's point. */
export interface RailReading {
  /** Id in the ledger. */
  readonly id: string;
  readonly rail: string;
  readonly point: 'output' | 'input' | 'enable';
  readonly quantity: 'volts' | 'ohms' | 'diode';
  /** The other rail of an ohms reading between two; null = against ground. */
  readonly against: string | null;
  /** Base units; null with `overload` true reads over range. */
  readonly value: number | null;
  readonly overload: boolean;
  /** The board's state when it was taken; null when nobody named one. */
  readonly state: string | null;
  /** Whether the board was fed at the time. */
  readonly powered: boolean;
  readonly wires: 2 | 4;
  /** Ohms of the leads, to be taken off; null when not measured, 0 when the meter nulled them. */
  readonly leadOhm: number | null;
  /** Null when the meter's is not known. */
  readonly accuracy: MeterAccuracy | null;
  /** UTC milliseconds. */
  readonly at: number;
}

export const RAIL_VERDICTS = [
  'present',
  'low',
  'high',
  'missing',
  'back-fed',
  'shorted',
  'open',
  'as-known-good',
  'not-measured',
  'cannot-tell',
] as const;
export type RailVerdict = (typeof RAIL_VERDICTS)[number];

/** The words a verdict is shown with. */
export const VERDICT_WORDS: Readonly<Record<RailVerdict, string>> = {
  present: 'Present',
  low: 'Low',
  high: 'High',
  missing: 'Missing',
  'back-fed': 'Back-fed',
  shorted: 'Shorted to ground',
  open: 'Open',
  'as-known-good': 'As known-good',
  'not-measured': 'Not measured',
  'cannot-tell': 'Cannot be told',
};

/** A verdict in words; ohms between two rails are joined or apart, whatever ground does. */
export function sayVerdict(
  verdict: RailVerdict,
  { isOdd, against }: { readonly isOdd: boolean; readonly against: string | null },
): string {
  if (against !== null && verdict === 'shorted') return `Joined to ${against}`;
  if (against !== null && verdict === 'as-known-good') return `Apart from ${against}`;
  return verdict === 'missing' && !isOdd ? 'Off, as it belongs' : VERDICT_WORDS[verdict];
}

/** A reading with its verdict and the working behind it. */
export interface JudgedReading {
  readonly reading: RailReading;
  readonly verdict: RailVerdict;
  /** False when the verdict is what belongs there: a rail missing in a state that has it off. */
  readonly isOdd: boolean;
  /** `3.10 V ± 0.02 against 3.30 V ± 5 % (3.135 V to 3.465 V)`. */
  readonly arithmetic: string;
  readonly reason: string;
  /** Where the limits come from. */
  readonly source: string;
  /** What was read over what belongs there (1 = just that); null where nothing says what does. */
  readonly share: number | null;
}

/** Accuracy taken when nobody told the meter's (common practice, no source). */
export const ASSUMED_ACCURACY: MeterAccuracy = { percent: 0.5, offset: 0 };

/** Half width of what the true value may be, base units. */
export function halfWidthOf(value: number, accuracy: MeterAccuracy | null): number {
  const { percent, offset } = accuracy ?? ASSUMED_ACCURACY;
  return (Math.abs(value) * percent) / 100 + offset;
}
