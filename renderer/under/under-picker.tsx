import { useEffect, useState } from 'react';
import type { AnswerOf } from '../../core/contract/call.ts';
import type { Calls } from '../../core/contract/contract.ts';
import { STAGE_WORDS } from '../../core/stages/stage.ts';
import { Pick } from '../parts/pick.tsx';
import { dayWords, timeWords } from '../parts/time-words.ts';
import { useActions } from '../state/use-desk.ts';
import { ALIGNMENTS, type Alignment } from './align.ts';

export interface UnderChoice {
  readonly runId: string | null;
  readonly at: Alignment;
}

interface Props {
  readonly jobId: string | null;
  /** The run on the sheet: it is not laid under itself. */
  readonly notRunId: string | null;
  readonly choice: UnderChoice;
  readonly onChoice: (choice: UnderChoice) => void;
  /** True when one of the two runs lacks the moment that was asked for. */
  readonly isAdrift: boolean;
}

const AT_WORDS: Readonly<Record<Alignment, string>> = {
  'output-on': 'at output on',
  'wake-request': 'at wake request',
};

/** Which earlier run lies under this one, and at which moment they meet. */
export function UnderPicker({ jobId, notRunId, choice, onChoice, isAdrift }: Props) {
  const { ask } = useActions();
  const [runs, setRuns] = useState<AnswerOf<Calls['runsToCompare']>>([]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: a new run makes the list longer
  useEffect(() => {
    void ask('runsToCompare', { jobId }).then((found) => setRuns(found ?? []));
  }, [ask, jobId, notRunId]);
  const offered = runs.filter(({ run }) => run.id !== notRunId);
  if (offered.length === 0) return null;
  return (
    <div className="under-picker">
      <Pick
        label="Lay under"
        value={choice.runId ?? ''}
        onPick={(runId) => onChoice({ ...choice, runId: runId || null })}
      >
        <option value="">No run</option>
        {offered.map(({ run, jobNumber, boardModel }) => (
          <option key={run.id} value={run.id}>
            {[
              `Job ${jobNumber}`,
              boardModel ?? 'board unknown',
              `${dayWords(run.startedAt)} ${timeWords(run.startedAt)}`,
              run.reach === null ? '' : STAGE_WORDS[run.reach.stage].toLowerCase(),
            ]
              .filter((words) => words !== '')
              .join(', ')}
          </option>
        ))}
      </Pick>
      {choice.runId !== null && (
        <Pick
          label="Where the runs meet"
          isQuiet
          value={choice.at}
          onPick={(picked) =>
            onChoice({ ...choice, at: ALIGNMENTS.find((one) => one === picked) ?? 'output-on' })
          }
        >
          {ALIGNMENTS.map((one) => (
            <option key={one} value={one}>
              {AT_WORDS[one]}
            </option>
          ))}
        </Pick>
      )}
      {isAdrift && <span role="status">One of the runs has no wake request.</span>}
    </div>
  );
}
