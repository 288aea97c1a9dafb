import { useEffect, useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import { useKey } from '../keys/use-key.ts';
import { useDeskState } from '../state/use-desk.ts';
import { TraceFigure } from '../trace/trace-figure.tsx';
import { FIRST_VIEW, rangeOf, SPANS, type TraceView } from '../trace/trace-view.ts';
import { alignShift } from '../under/align.ts';
import { type UnderChoice, UnderPicker } from '../under/under-picker.tsx';
import { useUnderRun } from '../under/use-under-run.ts';
import { EmptyTrace } from './empty-trace.tsx';
import type { SheetState } from './sheet-state.ts';
import type { SheetRun } from './use-sheet-run.ts';

interface Props {
  readonly sheetRun: SheetRun;
  readonly state: SheetState;
  readonly job: JobWhole | null;
}

/** The live or just finished trace with its keys. */
export function SheetTrace({ sheetRun, state, job }: Props) {
  const supply = useDeskState((desk) => desk.bench?.supply ?? null);
  const [view, setView] = useState<TraceView>(FIRST_VIEW);
  const { source, run } = sheetRun;
  const follow = (index: 0 | 1 | 2 | 3) =>
    setView({ follow: true, spanTicks: SPANS[index].spanTicks });
  useKey('span1', () => follow(0));
  useKey('span2', () => follow(1));
  useKey('span3', () => follow(2));
  useKey('span4', () => follow(3));
  useKey('follow', () => {
    if (source === null || view.follow) return;
    const { fromTick, toTick } = rangeOf(view, source.endTick());
    setView({ follow: true, spanTicks: toTick - fromTick });
  });
  useKey('trace', () => document.querySelector<HTMLElement>('.trace-plot')?.focus());

  const [under, setUnder] = useState<UnderChoice>({ runId: null, at: 'output-on' });
  const earlier = useUnderRun(under.runId);
  const shift = earlier === null ? null : alignShift(sheetRun.report, earlier.report, under.at);
  // A run that has ended is looked at whole; a new one is followed from its start.
  useEffect(() => {
    setView(sheetRun.isFinished ? { follow: true, spanTicks: null } : FIRST_VIEW);
  }, [sheetRun.isFinished]);

  if (source === null) return <EmptyTrace kind={state.kind} />;
  return (
    <TraceFigure
      source={source}
      report={sheetRun.report}
      view={view}
      onView={setView}
      limitA={sheetRun.isFinished ? (run?.limitA ?? null) : (supply?.limitA ?? null)}
      setV={sheetRun.isFinished ? (run?.setV ?? null) : (supply?.setV ?? null)}
      runningA={job?.job.board.runningA ?? null}
      voltsDecimals={supply?.voltsDecimals ?? 2}
      ampsDecimals={supply?.ampsDecimals ?? 3}
      isLive={!sheetRun.isFinished}
      under={(range, columns) =>
        earlier === null || shift === null
          ? null
          : {
              window: earlier.trace.window(range.fromTick - shift, range.toTick - shift, columns),
              shiftTicks: shift,
            }
      }
      toolbarEnd={
        <UnderPicker
          jobId={job?.job.id ?? null}
          notRunId={run?.id ?? null}
          choice={under}
          onChoice={setUnder}
          isAdrift={earlier !== null && shift === null}
        />
      }
    />
  );
}
