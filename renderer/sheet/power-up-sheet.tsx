import { Checklist } from '../checklist/checklist.tsx';
import { OutputControls } from '../controls/output-controls.tsx';
import { ProbePanel } from '../probing/probe-panel.tsx';
import { SoakLine } from '../soak/soak-line.tsx';
import { useDeskState } from '../state/use-desk.ts';
import { LiveReadouts } from './live-readouts.tsx';
import { NoJob } from './no-job.tsx';
import { SheetTrace } from './sheet-trace.tsx';
import { SheetWords } from './sheet-words.tsx';
import { useSheetState } from './use-sheet-state.ts';

/** The one window's home: the trace beside the job's checklist. */
export function PowerUpSheet() {
  const job = useDeskState((state) => state.job);
  const isLoading = useDeskState((state) => state.bench?.jobId != null);
  const state = useSheetState();
  return (
    <main className="sheet" data-state={state.kind}>
      <h1 className="heard-only">Power-up sheet</h1>
      <div className="sheet-left">
        <SheetWords state={state} />
        <LiveReadouts />
        <SheetTrace kind={state.kind} />
        <OutputControls />
      </div>
      <aside className="sheet-right">
        <ProbePanel />
        <SoakLine />
        {job === null ? <NoJob isLoading={isLoading} /> : <Checklist whole={job} />}
      </aside>
    </main>
  );
}
