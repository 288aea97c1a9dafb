import type { Run } from '../../core/job/job.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { dayWords, timeWords } from '../parts/time-words.ts';

/** A run on one line: `Job 3, Heron 3, 5 Jan 09:30, running`. */
export function runName(o: {
  readonly run: Run;
  readonly jobNumber: number | null;
  readonly boardModel: string | null;
}): string {
  const { run } = o;
  return [
    o.jobNumber === null ? 'No job' : `Job ${o.jobNumber}`,
    o.boardModel ?? 'board unknown',
    `${dayWords(run.startedAt)} ${timeWords(run.startedAt)}`,
    ...(run.reach === null ? [] : [STAGE_WORDS[run.reach.stage].toLowerCase()]),
  ].join(', ');
}
