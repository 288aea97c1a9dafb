import { useEffect, useId, useRef, useState } from 'react';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { useSize } from '../parts/use-size.ts';
import { rangeOf, type TraceView } from '../trace/trace-view.ts';
import { useTraceGestures } from '../trace/use-trace-gestures.ts';
import { steadyAxis, type ValueAxis } from '../trace/value-axis.ts';
import type { CommonTime } from './common-time.ts';
import { COMPARE_PLOT, ComparePlot } from './compare-plot.tsx';
import { type ComparedWindows, useComparedWindows } from './use-compared-windows.ts';

/** Of very long runs the beginning is looked at first: that is where boards differ. */
const FIRST_LOOK_TICKS = 60 * TICKS_PER_SECOND;

/** The overlaid draws, moved and zoomed like the trace: wheel, drag and keys. */
export function CompareFigure({ time, words }: { time: CommonTime; words: string }) {
  const [ref, size] = useSize<HTMLDivElement>();
  const about = useId();
  const [view, setView] = useState<TraceView>({ follow: true, spanTicks: null });
  const endTick = time.endTick;
  useEffect(() => {
    const toTick = Math.min(endTick, FIRST_LOOK_TICKS);
    setView(
      toTick < endTick ? { follow: false, fromTick: 0, toTick } : { follow: true, spanTicks: null },
    );
  }, [endTick]);
  const range = rangeOf(view, endTick);
  const columns = Math.max(1, size.width - COMPARE_PLOT.left - COMPARE_PLOT.right);
  const windows = useComparedWindows(time, range, columns);
  const axis = useRef<ValueAxis | null>(null);
  axis.current = steadyAxis(axis.current, lowestOf(windows), highestOf(windows), 0.01);
  const gestures = useTraceGestures({ ref, view, onView: setView, endTick, width: columns });
  return (
    <figure className="compare-figure" aria-label="Runs over one another">
      <p id={about} className="heard-only">
        {words}
      </p>
      {/* biome-ignore lint/a11y/useSemanticElements: a fieldset is for form fields */}
      <div
        ref={ref}
        className="compare-plot"
        role="group"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the plot is moved and zoomed by keys
        tabIndex={0}
        aria-label="Overlaid draws: arrow keys move, plus and minus zoom"
        aria-describedby={about}
        {...gestures.handlers}
      >
        {size.width > 0 && size.height > 0 && (
          <div className="compare-drawn" aria-hidden="true">
            <ComparePlot
              time={time}
              windows={windows}
              width={size.width}
              height={size.height}
              range={range}
              axis={axis.current}
            />
          </div>
        )}
      </div>
    </figure>
  );
}

function highestOf(windows: ComparedWindows): number {
  let found = 0;
  for (const { ampsMax } of windows.values()) {
    for (const value of ampsMax) if (value > found) found = value;
  }
  return found;
}

function lowestOf(windows: ComparedWindows): number {
  let found = 0;
  for (const { ampsMin } of windows.values()) {
    for (const value of ampsMin) if (value < found) found = value;
  }
  return found;
}
