import { Checklist } from '../checklist/checklist.tsx';
import { OutputControls } from '../controls/output-controls.tsx';
import { useDeskState } from '../state/use-desk.ts';
import { FinishedActions } from './finished-actions.tsx';
import { NoJob } from './no-job.tsx';
import { Readouts } from './readouts.tsx';
import { SheetHead } from './sheet-head.tsx';
import { sheetState } from './sheet-state.ts';
import { SheetTrace } from './sheet-trace.tsx';
import { useSheetRun } from './use-sheet-run.ts';

/** The one window's home: the trace beside the job's checklist. */
export function PowerUpSheet() {
  const bench = useDeskState((state) => state.bench);
  const job = useDeskState((state) => state.job);
  const trouble = useDeskState((state) => state.trouble);
  const sheetRun = useSheetRun();
  const state = sheetState({
    bench,
    items: job?.items ?? null,
    statedInputV: job?.job.board.statedInputV ?? null,
    newest: sheetRun.report?.stages.at(-1) ?? null,
    finished: sheetRun.isFinished && sheetRun.report !== null ? { report: sheetRun.report } : null,
    trouble,
  });
  const supply = bench?.supply ?? null;
  // What a lost supply read last is not what it reads now.
  const now = supply?.link === 'live' ? supply : null;
  return (
    <main className="sheet" data-state={state.kind}>
      <h1 className="heard-only">Power-up sheet</h1>
      <div className="sheet-left">
        <SheetHead state={state} stage={sheetRun.report?.stages.at(-1) ?? null}>
          {sheetRun.isFinished && sheetRun.run !== null && <FinishedActions run={sheetRun.run} />}
        </SheetHead>
        <Readouts
          isLive={now?.outputOn === true}
          volts={now?.volts ?? null}
          amps={now?.amps ?? null}
          regulation={now?.regulation ?? null}
          setV={supply?.setV ?? null}
          limitA={supply?.limitA ?? null}
          voltsDecimals={supply?.voltsDecimals ?? 2}
          ampsDecimals={supply?.ampsDecimals ?? 3}
        />
        <SheetTrace sheetRun={sheetRun} state={state} job={job} />
        <OutputControls />
      </div>
      <aside className="sheet-right">
        {job === null ? <NoJob isLoading={bench?.jobId != null} /> : <Checklist whole={job} />}
      </aside>
    </main>
  );
}
