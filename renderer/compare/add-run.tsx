import { useEffect, useState } from 'react';
import type { AnswerOf } from '../../core/contract/call.ts';
import type { Calls } from '../../core/contract/contract.ts';
import { Pick } from '../parts/pick.tsx';
import { useActions, useDeskState } from '../state/use-desk.ts';
import { runName } from './run-name.ts';

interface Props {
  readonly taken: readonly string[];
  readonly isFirst: boolean;
  readonly onAdd: (runId: string) => void;
}

/** Runs that can be added: this board's first. */
export function AddRun({ taken, isFirst, onAdd }: Props) {
  const { ask } = useActions();
  const jobId = useDeskState((state) => state.bench?.jobId ?? null);
  const [runs, setRuns] = useState<AnswerOf<Calls['runsToCompare']> | null>(null);
  useEffect(() => {
    void ask('runsToCompare', { jobId }).then((found) => setRuns(found ?? []));
  }, [ask, jobId]);
  const offered = (runs ?? []).filter(({ run }) => !taken.includes(run.id));
  if (runs !== null && offered.length === 0) {
    return <p className="quiet">{isFirst ? 'No run is kept yet.' : 'No other run is kept.'}</p>;
  }
  return (
    <Pick
      label={isFirst ? 'First run' : 'Add a run'}
      value=""
      onPick={(id) => id !== '' && onAdd(id)}
    >
      <option value="">Choose…</option>
      {offered.map((one) => (
        <option key={one.run.id} value={one.run.id}>
          {runName(one)}
        </option>
      ))}
    </Pick>
  );
}
