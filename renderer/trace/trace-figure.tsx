import { memo, useContext, useId, useState } from 'react';
import type { Mark, StageReport } from '../../core/stages/stage.ts';
import { BandContext } from '../bands/band-context.ts';
import { bandHigh } from '../bands/band-high.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { useTraceVersion } from '../live/use-trace-version.ts';
import { useSize } from '../parts/use-size.ts';
import { StageStrip } from '../strip/stage-strip.tsx';
import { drawingIntervalMs } from './drawing-interval.ts';
import { PLOT } from './grid-lines.ts';
import { PointReadout } from './point-readout.tsx';
import type { UnderRun } from './trace-drawing.ts';
import { TraceFrame } from './trace-frame.tsx';
import { CurvesContext } from './trace-lines.tsx';
import { traceSentence } from './trace-sentence.ts';
import { TraceTable } from './trace-table.tsx';
import { TraceToolbar } from './trace-toolbar.tsx';
import { rangeOf, type TickRange, type TraceView } from './trace-view.ts';
import { useTraceDrawing } from './use-trace-drawing.ts';
import { useTraceGestures } from './use-trace-gestures.ts';

interface Props {
  readonly source: TraceSource;
  readonly report: StageReport | null;
  readonly view: TraceView;
  readonly onView: (view: TraceView) => void;
  readonly limitA: number | null;
  readonly setV: number | null;
  readonly runningA: number | null;
  readonly voltsDecimals: number;
  readonly ampsDecimals: number;
  readonly isLive: boolean;
  readonly under?: ((range: TickRange, columns: number) => UnderRun | null) | undefined;
  readonly toolbarEnd?: React.ReactNode;
}

const COLUMNS_UNSEEN = 400;
const NO_MARKS: readonly Mark[] = [];

/** The trace with its marks and, under it on the same time axis, the stage strip. */
export const TraceFigure = memo(function TraceFigure(props: Props) {
  const { source, report, view, onView } = props;
  const sentenceId = useId();
  const [plotRef, size] = useSize<HTMLDivElement>();
  const [isTable, setTable] = useState(false);
  const endTick = source.endTick();
  // Only a view that moves with the newest sample ends there; others span the run.
  const reach = view.follow && view.spanTicks !== null ? endTick : source.lengthTick();
  const range = rangeOf(view, reach);
  // The plot has no width while its table is shown in its place.
  const columns = size.width === 0 ? COLUMNS_UNSEEN : size.width - PLOT.left - PLOT.right;
  useTraceVersion(source, drawingIntervalMs(range, columns));
  const drawing = useTraceDrawing(
    source,
    range,
    columns,
    props.under?.(range, columns) ?? null,
    props.setV,
    bandHigh(useContext(BandContext), range),
  );
  const gestures = useTraceGestures({
    ref: plotRef,
    view,
    onView,
    endTick: reach,
    width: columns,
  });

  return (
    <figure className="trace" aria-label="Trace of this run">
      <TraceToolbar
        view={view}
        onView={onView}
        isLive={props.isLive}
        hasUnder={drawing.under !== null}
        isTable={isTable}
        onTable={() => setTable(!isTable)}
        end={props.toolbarEnd}
      />
      <p id={sentenceId} className="heard-only">
        {traceSentence(report, endTick)}
      </p>
      {isTable && <TraceTable report={report} drawing={drawing} facts={props} />}
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields */}
      <div
        ref={plotRef}
        className="trace-plot"
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plot is moved and zoomed by keys
        tabIndex={0}
        aria-label="Trace: arrow keys move, plus and minus zoom, End follows the newest"
        aria-describedby={sentenceId}
        hidden={isTable}
        {...gestures.handlers}
      >
        {size.width > 0 && size.height > 0 && (
          <div className="trace-drawn" aria-hidden="true">
            <CurvesContext value={drawing}>
              <TraceFrame
                {...size}
                {...range}
                ampsAxis={drawing.ampsAxis}
                voltsAxis={drawing.voltsAxis}
                limitA={props.limitA}
                setV={props.setV}
                runningA={props.runningA}
                marks={report?.marks ?? NO_MARKS}
              />
            </CurvesContext>
          </div>
        )}
        {gestures.at !== null && (
          <PointReadout
            at={gestures.at}
            range={range}
            width={columns}
            drawing={drawing}
            voltsDecimals={props.voltsDecimals}
            ampsDecimals={props.ampsDecimals}
          />
        )}
      </div>
      <StageStrip runId={source.runId} range={range} report={report} endTick={endTick} />
    </figure>
  );
});
