import { z } from 'zod';
import { readingLimit, stageLimit } from '../guard/guard-limit.ts';
import { type GuardSettings, guardPolicy, ownProtection } from '../guard/guard-settings.ts';
import { answers } from './call.ts';
import { id } from './fields.ts';

/** What guards the runs of a job, or of the bench. */
export interface GuardState {
  readonly jobId: string | null;
  /** False when the job has nothing of its own and the bench's settings count. */
  readonly isOwn: boolean;
  readonly settings: GuardSettings;
  /** The supply can be read only: a trip cannot switch it off. */
  readonly canSwitch: boolean;
  /** Which of its own protections the supply has, as far as it told. Null = never asked. */
  readonly ownSet: { readonly overV: boolean; readonly overA: boolean } | null;
}

/** `jobId` null = for every job that has nothing of its own. */
const whose = { jobId: id.nullable() };

/** Calls about limits, and about what happens when the app dies: answered by main. */
export const guardCalls = {
  guardState: answers<GuardState>()(z.object(whose)),
  /** Refuses with `out-of-range` a limit that the supply can never reach. */
  setGuardLimits: answers<GuardState>()(
    z.object({
      ...whose,
      readings: z.array(readingLimit).max(20),
      stages: z.array(stageLimit).max(20),
      own: ownProtection,
    }),
  ),
  setGuardPolicy: answers<GuardState>()(z.object({ ...whose, policy: guardPolicy })),
  /** Forgets what the job has of its own. */
  dropGuard: answers<GuardState>()(z.object({ jobId: id })),
} as const;
