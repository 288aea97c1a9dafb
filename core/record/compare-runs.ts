import { UNKNOWN } from '../units/format.ts';
import type { RecordRun } from './job-record.ts';
import type { Comparison } from './record-content.ts';
import { END_WORDS } from './record-words.ts';
import { runNumbers } from './run-numbers.ts';
import { runTitle } from './run-section.ts';

/** The first run before repair beside the last one after it; null unless the job has both. */
export function compareRuns(runs: readonly RecordRun[]): Comparison | null {
  const before = runs.find((run) => run.run.role === 'before');
  const after = runs.findLast((run) => run.run.role === 'after');
  if (before === undefined || after === undefined) return null;
  const a = runNumbers(before);
  const b = runNumbers(after);
  const end = ({ run }: RecordRun) => (run.end === null ? UNKNOWN : END_WORDS[run.end]);
  const title = (run: RecordRun) => runTitle(run.run, runs.indexOf(run) + 1, runs.length);
  return {
    beforeTitle: title(before),
    afterTitle: title(after),
    rows: [
      { label: 'Reached', before: a.reached, after: b.reached },
      { label: 'Highest level held', before: a.held, after: b.held },
      { label: 'Of its running draw', before: a.share, after: b.share },
      { label: 'Peak', before: a.peak, after: b.peak },
      {
        label: 'Energy',
        before: `${a.energy} in ${a.lasted}`,
        after: `${b.energy} in ${b.lasted}`,
      },
      { label: 'Ended', before: end(before), after: end(after) },
    ],
  };
}
