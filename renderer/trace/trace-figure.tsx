import { useId, useState } from 'react';
import type { StageReport } from '../../core/stages/stage.ts';
import type { TraceSource } from '../live/trace-source.ts';
import { useTraceVersion } from '../live/use-trace-version.ts';
import { useSize } from '../parts/use-size.ts';
import { StageStrip } from '../strip/stage-strip.tsx';
import { PointReadout } from './point-readout.tsx';
import type { UnderRun } from './trace-drawing.ts';
import { AXIS_WIDTH, TraceFrame } from './trace-frame.tsx';
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

/** The trace with its marks and, under it on the same time axis, the stage strip. */
export function TraceFigure(props: Props) {
  const { source, report, view, onView } = props;
  useTraceVersion(source);
  const sentenceId = useId();
  const [plotRef, size] = useSize<HTMLDivElement>();
  const [isTable, setTable] = useState(false);
  const endTick = source.endTick();
  const range = rangeOf(view, endTick);
  const columns = Math.max(1, size.width - AXIS_WIDTH.amps - AXIS_WIDTH.volts);
  const drawing = useTraceDrawing(source, range, columns, props.under?.(range, columns) ?? null, {
    limitA: props.limitA,
    setV: props.setV,
    runningA: props.runningA,
    marks: report?.marks ?? [],
  });
  const gestures = useTraceGestures({ ref: plotRef, view, onView, endTick, width: columns });

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
            <TraceFrame size={size} range={range} drawing={drawing} />
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
      <StageStrip range={range} report={report} endTick={endTick} />
    </figure>
  );
}
