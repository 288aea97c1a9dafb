import type { JobState, Liquid, Matters, Outcome, RunEnd } from '../../core/job/job.ts';
import { WAITING_WORDS, type WaitingFor } from '../../core/job/waiting-for.ts';

export const STATE_WORDS: Readonly<Record<JobState, string>> = {
  open: 'Open',
  waiting: 'Waiting',
  closed: 'Closed',
};

/** A job's state, with what it waits for where somebody said so. */
export function stateWords(job: {
  readonly state: JobState;
  readonly waitingFor: WaitingFor | null;
}): string {
  return job.state === 'waiting' && job.waitingFor !== null
    ? `Waiting for ${WAITING_WORDS[job.waitingFor]}`
    : STATE_WORDS[job.state];
}

export const VERDICT_WORDS: Readonly<Record<Outcome['verdict'], string>> = {
  wakes: 'Wakes',
  partly: 'Partly repaired',
  'not-repaired': 'Not repaired',
  'returned-untouched': 'Returned untouched',
};

export const LIQUID_WORDS: Readonly<Record<Liquid, string>> = {
  no: 'No liquid',
  yes: 'Liquid',
  unknown: 'Not known',
};

export const MATTERS_WORDS: Readonly<Record<Matters, string>> = {
  data: 'The data',
  device: 'The device',
  both: 'Both',
  'not-asked': 'Not asked',
};

export const END_WORDS: Readonly<Record<RunEnd, string>> = {
  'output-off': 'switched off',
  guard: 'stopped by a guard',
  'lost-instrument': 'instrument lost',
  'app-closed': 'app closed',
  recovered: 'recovered after a crash',
  'file-end': 'read from a file',
};
