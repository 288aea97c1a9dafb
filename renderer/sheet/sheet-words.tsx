import { useDeskState } from '../state/use-desk.ts';
import { FinishedActions } from './finished-actions.tsx';
import { SheetHead } from './sheet-head.tsx';
import type { SheetState } from './sheet-state.ts';

/** The sheet's head while the bench is live, with what can be done with a run that has ended. */
export function SheetWords({ state }: { state: SheetState }) {
  const stage = useDeskState((desk) => desk.live?.report.stages.at(-1)?.stage ?? null);
  const run = useDeskState((desk) => (desk.finished?.trace == null ? null : desk.finished.run));
  return (
    <SheetHead state={state} stage={stage}>
      {run !== null && <FinishedActions run={run} />}
    </SheetHead>
  );
}
