import { z } from 'zod';
import { type ReadingLimit, readingLimit, type StageLimit, stageLimit } from './guard-limit.ts';

/** What becomes of the output when the app itself dies or hangs: switched off, or left as it is. */
export const guardPolicy = z.enum(['off', 'leave']);
export type GuardPolicy = z.infer<typeof guardPolicy>;

/** The supply's own protection, set along with the guard where it has it. Null = not touched. */
export const ownProtection = z.strictObject({
  overV: z.number().finite().positive().nullable(),
  overA: z.number().finite().positive().nullable(),
});
export type OwnProtection = z.infer<typeof ownProtection>;

/** All that guards a job's runs, or the bench where the job has nothing of its own. */
export const guardSettings = z.strictObject({
  policy: guardPolicy,
  readings: z.array(readingLimit).max(20),
  stages: z.array(stageLimit).max(20),
  own: ownProtection,
});
export interface GuardSettings {
  readonly policy: GuardPolicy;
  readonly readings: readonly ReadingLimit[];
  readonly stages: readonly StageLimit[];
  readonly own: OwnProtection;
}

/**
 * Until somebody says otherwise: off when the app dies; word of five equal rounds of a loop,
 * of a stall and of a draw at the supply's limit that lasts. Nothing on amps, volts, watts,
 * energy or time: what is too much is the board's own. Common practice, no source.
 */
export const FIRST_GUARD: GuardSettings = {
  policy: 'off',
  readings: [],
  stages: [
    { on: 'cycling', times: 5, action: 'alert' },
    { on: 'stalled', forS: 600, action: 'alert' },
    { on: 'limited', forS: 10, action: 'alert' },
  ],
  own: { overV: null, overA: null },
};
