import { useEffect, useState } from 'react';
import type { AnswerOf } from '../../core/contract/call.ts';
import type { Calls } from '../../core/contract/contract.ts';
import { RunLine } from '../job-book/run-line.tsx';
import { KeyCap } from '../parts/key-cap.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';

/** Runs that can be replayed: this board's first. */
export function RunPicker() {
  const { ask, compare } = useActions();
  const jobId = useDeskState((state) => state.bench?.jobId ?? null);
  const [runs, setRuns] = useState<AnswerOf<Calls['runsToCompare']> | null>(null);
  useEffect(() => {
    void ask('runsToCompare', { jobId }).then((found) => setRuns(found ?? []));
  }, [ask, jobId]);
  return (
    <main className="replay-pick">
      <h1>Replay an earlier run</h1>
      <p className="quiet">
        {runs?.length === 0
          ? 'No run is kept yet. Power a board, and its run can be played here afterwards.'
          : 'Runs of this board come first. Choose one.'}
      </p>
      {(runs?.length ?? 0) > 1 && (
        <button type="button" className="plain" onClick={() => compare([])}>
          Compare runs <KeyCap>F7</KeyCap>
        </button>
      )}
      <ol>
        {runs?.map(({ run, jobNumber, boardModel }) => (
          <li key={run.id}>
            <h2>
              Job {jobNumber}, {boardModel ?? 'board unknown'}
            </h2>
            <ol>
              <RunLine run={run} />
            </ol>
          </li>
        ))}
      </ol>
    </main>
  );
}
