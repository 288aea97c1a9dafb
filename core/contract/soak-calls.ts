import { z } from 'zod';
import type { SoakCriteria, SoakNumbers, SoakVerdict } from '../soak/soak-judge.ts';
import { answers } from './call.ts';
import { amps } from './fields.ts';

/** The soak under way, or how the last one ended. */
export interface SoakState {
  readonly isRunning: boolean;
  readonly criteria: SoakCriteria | null;
  /** UTC ms. */
  readonly startedAt: number | null;
  readonly numbers: SoakNumbers | null;
  readonly verdict: SoakVerdict | null;
  /** What writing it down ran into; null when it stands on the checklist, or there is no job. */
  readonly trouble: string | null;
}

/** Calls about soaks: answered by main. */
export const soakCalls = {
  soakState: answers<SoakState>()(z.object({})),
  /** Throws `not-connected` while no powered run is live, `bad-input` for bounds that cross. */
  startSoak: answers<SoakState>()(
    z.object({
      minutes: z
        .number()
        .finite()
        .min(0.05)
        .max(7 * 24 * 60),
      lowA: amps.nullable(),
      highA: amps.nullable(),
    }),
  ),
  /** Ends it unproved: written down as failed, with what was watched. */
  stopSoak: answers<SoakState>()(z.object({})),
} as const;

export interface SoakEvents {
  soakChanged: SoakState;
}
