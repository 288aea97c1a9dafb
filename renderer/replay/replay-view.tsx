import { useEffect, useState } from 'react';
import type { AnswerOf } from '../../core/contract/call.ts';
import type { Calls } from '../../core/contract/contract.ts';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { ReplaySheet } from './replay-sheet.tsx';
import { RunPicker } from './run-picker.tsx';

/** An earlier run on the same sheet; a list to pick one from until it is chosen. */
export function ReplayView() {
  const runId = useDeskState((state) => state.replayRunId);
  const { ask } = useActions();
  const [read, setRead] = useState<AnswerOf<Calls['readRun']> | null>(null);
  useEffect(() => {
    setRead(null);
    if (runId === null) return;
    let isWanted = true;
    void ask('readRun', { id: runId }).then((answer) => {
      if (isWanted) setRead(answer);
    });
    return () => {
      isWanted = false;
    };
  }, [runId, ask]);
  if (runId === null) return <RunPicker />;
  if (read === null) return <main className="replay-pick">Reading the run…</main>;
  return <ReplaySheet key={read.run.id} run={read.run} report={read.report} />;
}
