import { useCallback, useEffect, useMemo, useState } from 'react';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { BandContext } from '../bands/band-context.ts';
import { BandWords } from '../bands/band-words.tsx';
import { useGoodBand } from '../bands/use-good-band.ts';
import { viewAround } from '../bands/view-around.ts';
import { useDeskState } from '../state/use-desk.ts';
import { TraceFigure } from '../trace/trace-figure.tsx';
import { FIRST_VIEW, type TickRange, type TraceView } from '../trace/trace-view.ts';
import { useSpanKeys } from '../trace/use-span-keys.ts';
import { alignShift } from '../under/align.ts';
import { type UnderChoice, UnderPicker } from '../under/under-picker.tsx';
import { useUnderRun } from '../under/use-under-run.ts';
import { EmptyTrace } from './empty-trace.tsx';
import type { SheetKind } from './sheet-state.ts';
import { useSheetRun } from './use-sheet-run.ts';

/** The live or just finished trace with its keys. */
export function SheetTrace({ kind }: { kind: SheetKind }) {
  const sheetRun = useSheetRun();
  const board = useDeskState((desk) => desk.job?.job.board ?? null);
  const jobId = useDeskState((desk) => desk.job?.job.id ?? null);
  const setV = useDeskState((desk) => desk.bench?.supply.setV ?? null);
  const limitA = useDeskState((desk) => desk.bench?.supply.limitA ?? null);
  const voltsDecimals = useDeskState((desk) => desk.bench?.supply.voltsDecimals ?? 2);
  const ampsDecimals = useDeskState((desk) => desk.bench?.supply.ampsDecimals ?? 3);
  const [view, setView] = useState<TraceView>(FIRST_VIEW);
  const { source, run } = sheetRun;
  useSpanKeys(view, setView, () => source?.endTick() ?? 0);

  const [under, setUnder] = useState<UnderChoice>({ runId: null, at: 'output-on' });
  const earlier = useUnderRun(under.runId);
  const shift = earlier === null ? null : alignShift(sheetRun.report, earlier.report, under.at);
  // A run that has ended is looked at whole; a new one is followed from its start.
  useEffect(() => {
    setView(sheetRun.isFinished ? { follow: true, spanTicks: null } : FIRST_VIEW);
  }, [sheetRun.isFinished]);

  const runId = run?.id ?? null;
  const isAdrift = earlier !== null && shift === null;
  // Kept the same between readings, so that ten bench states a second draw no trace.
  const picker = useMemo(
    () => (
      <UnderPicker
        jobId={jobId}
        notRunId={runId}
        choice={under}
        onChoice={setUnder}
        isAdrift={isAdrift}
      />
    ),
    [jobId, runId, under, isAdrift],
  );
  const underWindow = useCallback(
    ({ fromTick, toTick }: TickRange, columns: number) =>
      earlier === null || shift === null
        ? null
        : {
            window: earlier.trace.window(fromTick - shift, toTick - shift, columns),
            shiftTicks: shift,
          },
    [earlier, shift],
  );

  const goodBand = useGoodBand(run, sheetRun.report, source);
  if (source === null) return <EmptyTrace kind={kind} />;
  return (
    <BandContext value={goodBand.shown}>
      <TraceFigure
        source={source}
        report={sheetRun.report}
        view={view}
        onView={setView}
        limitA={sheetRun.isFinished ? (run?.limitA ?? null) : limitA}
        setV={sheetRun.isFinished ? (run?.setV ?? null) : setV}
        runningA={board?.runningA ?? null}
        voltsDecimals={voltsDecimals}
        ampsDecimals={ampsDecimals}
        isLive={!sheetRun.isFinished}
        under={underWindow}
        toolbarEnd={picker}
      />
      <BandWords
        isBrief
        state={goodBand}
        onGo={(atS) => setView(viewAround(atS * TICKS_PER_SECOND, source.endTick()))}
      />
    </BandContext>
  );
}
