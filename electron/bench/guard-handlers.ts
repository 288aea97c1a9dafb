import type { Handlers } from '../../core/contract/contract.ts';
import type { GuardState, guardCalls } from '../../core/contract/guard-calls.ts';
import { checkReadingLimit } from '../../core/guard/guard-limit.ts';
import type { GuardSettings } from '../../core/guard/guard-settings.ts';
import type { BenchSupply } from './bench-supply.ts';
import { type GuardFile, keepGuardFile } from './guard-file.ts';

export interface GuardParts {
  readonly file: string;
  supply(): BenchSupply;
  settings(): GuardFile;
  /** Puts changed settings in force; they are on disk by then. */
  changed(settings: GuardFile): Promise<void>;
  ownSet(): GuardState['ownSet'];
}

/** The settings that count for a job. */
export function guardOf(file: GuardFile, jobId: string | null): GuardSettings {
  return (jobId === null ? undefined : file.jobs[jobId]) ?? file.bench;
}

/** The calls about limits. */
export function guardHandlers(parts: GuardParts): Handlers<typeof guardCalls> {
  const state = (jobId: string | null): GuardState => ({
    jobId,
    isOwn: jobId === null || parts.settings().jobs[jobId] !== undefined,
    settings: guardOf(parts.settings(), jobId),
    canSwitch: parts.supply().state.canSwitch,
    ownSet: parts.ownSet(),
  });

  async function keep(jobId: string | null, settings: GuardSettings): Promise<GuardState> {
    const before = parts.settings();
    const after =
      jobId === null
        ? { ...before, bench: settings }
        : { ...before, jobs: { ...before.jobs, [jobId]: settings } };
    keepGuardFile(parts.file, after);
    await parts.changed(after);
    return state(jobId);
  }

  return {
    guardState: ({ jobId }) => state(jobId),
    setGuardLimits: ({ jobId, readings, stages, own }) => {
      const { maxV, maxA, identity } = parts.supply().state;
      const supply = { maxV, maxA, name: identity === '' ? 'supply' : identity };
      for (const limit of readings) checkReadingLimit(limit, supply);
      return keep(jobId, { ...guardOf(parts.settings(), jobId), readings, stages, own });
    },
    setGuardPolicy: ({ jobId, policy }) =>
      keep(jobId, { ...guardOf(parts.settings(), jobId), policy }),
    dropGuard: async ({ jobId }) => {
      const { [jobId]: _dropped, ...jobs } = parts.settings().jobs;
      const after = { ...parts.settings(), jobs };
      keepGuardFile(parts.file, after);
      await parts.changed(after);
      return state(jobId);
    },
  };
}
