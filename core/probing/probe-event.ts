import type { Quantity } from '../job/job.ts';

/** What the watch is shown: one reading of the meter and what is known of the power around it. */
export interface WatchedReading {
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  /** Digits after the point, in base units, that the meter resolved. */
  readonly decimals: number;
  readonly tMs: number;
  /** Whether the supply feeds the board; null = not known. */
  readonly outputOn: boolean | null;
  /** Volts at the feed, and volts last measured at this very contact; null = not known. */
  readonly feedV: number | null;
}

/** A reading that was taken. `value` null with `overload` = over range. */
export interface TakenReading {
  readonly quantity: Quantity;
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number;
  readonly tMs: number;
}

/**
 * Why a contact is no reading: the meter is in another function than is wanted; resistance while
 * the output is on; resistance while volts remain on the point or at the feed.
 */
export type Refusal = 'wrong-function' | 'output-on' | 'volts-remain';

/** What the watch says, as past facts. */
export type ProbeEvent =
  | { readonly kind: 'armed' }
  | { readonly kind: 'settling' }
  | { readonly kind: 'taken'; readonly reading: TakenReading }
  | { readonly kind: 'replaced'; readonly reading: TakenReading }
  | { readonly kind: 'refused'; readonly why: Refusal }
  | { readonly kind: 'lifted' };

/** Where the watch stands. `lift` = a reading was taken or refused, and the probe is still on. */
export type ProbePhase = 'armed' | 'settling' | 'lift' | 'refused';

/** True for what is read with the meter's own current, which is only true on a dead point. */
export function isPowerless(quantity: Quantity): boolean {
  return quantity === 'ohms' || quantity === 'diode' || quantity === 'continuity';
}
