import { useState } from 'react';
import type { JobWhole } from '../../core/job/job.ts';
import { useKey } from '../keys/use-key.ts';
import { useDeskState } from '../state/use-desk.ts';
import { TraceFigure } from '../trace/trace-figure.tsx';
import { FIRST_VIEW, rangeOf, SPANS, type TraceView } from '../trace/trace-view.ts';
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
    />
  );
}
