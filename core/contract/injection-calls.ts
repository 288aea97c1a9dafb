import { z } from 'zod';
import type { InjectionPlan } from '../shorts/injection.ts';
import { answers } from './call.ts';
import { id, line } from './fields.ts';

/** What current is put into: the hunted rail, or the leads' own tips on each other. */
export type InjectionPurpose = 'rail' | 'leads';

/**
 * Putting current in, as a mode of the supply. `ready` = the output is off until the key or pedal is
 * held; `tripped` = switched off by a guard or a fault, and it stays so until somebody has seen it.
 */
export interface InjectionState {
  readonly phase: 'off' | 'ready' | 'running' | 'tripped';
  readonly huntId: string | null;
  readonly purpose: InjectionPurpose;
  readonly rail: string;
  /** The plan in force; null while the mode is off. */
  readonly plan: Extract<InjectionPlan, { ok: true }> | null;
  /** Which of the plan's steps the limit is at. */
  readonly step: number;
  readonly setV: number;
  /** Seconds that this press may go on; null while nothing is held. */
  readonly leftS: number | null;
  /** Why the output went off last, or what was taken; '' when there is nothing to say. */
  readonly said: string;
  /** What the supply was set to before, and comes back to; null = not told. */
  readonly before: { readonly setV: number | null; readonly limitA: number | null };
}

/** Calls about putting current in: answered by main. */
export const injectionCalls = {
  injectionState: answers<InjectionState>()(z.object({})),
  /**
   * Enters the mode. The person says where the leads are now (the rail, or `each other`) and that no
   * cell is attached. Throws `gate-closed` with everything that is in the way; nothing was sent then.
   */
  enterInjection: answers<InjectionState>()(
    z.object({
      huntId: id,
      purpose: z.enum(['rail', 'leads']),
      leadsAt: line,
      cellsOff: z.boolean(),
    }),
  ),
  /** Output off, then the volts and limit from before come back. */
  leaveInjection: answers<InjectionState>()(z.object({})),
  /**
   * `press` switches on; `held` has to follow at least every 0.6 s; `release`, or silence, is off.
   * A press ends by itself after the time of its step. Throws as `outputOn`.
   */
  holdInjection: answers<InjectionState>()(
    z.object({ hold: z.enum(['press', 'held', 'release']) }),
  ),
  /** One step of the limit or of the volts, up or down, by a person. Throws `out-of-range` at the ceiling. */
  stepInjection: answers<InjectionState>()(
    z.object({ of: z.enum(['limit', 'volts']), up: z.boolean() }),
  ),
  /** A trip was seen: the mode is ready again, at its first step. */
  seenInjectionTrip: answers<InjectionState>()(z.object({})),
  /** The meter's noise, volts, from readings of a probe held still. Throws `bad-input`, `no-answer`. */
  measureMeterNoise: answers<{ readonly sigmaV: number }>()(z.object({})),
} as const;

export interface InjectionEvents {
  injectionChanged: InjectionState;
}

export const NO_INJECTION: InjectionState = {
  phase: 'off',
  huntId: null,
  purpose: 'rail',
  rail: '',
  plan: null,
  step: 0,
  setV: 0,
  leftS: null,
  said: '',
  before: { setV: null, limitA: null },
};
