import {
  type KeyboardEvent,
  type PointerEvent,
  type RefObject,
  useEffect,
  useRef,
  useState,
} from 'react';
import { PLOT } from './grid-lines.ts';
import { pan, rangeOf, type TraceView, zoom } from './trace-view.ts';

interface Given {
  readonly ref: RefObject<HTMLDivElement | null>;
  readonly view: TraceView;
  readonly onView: (view: TraceView) => void;
  readonly endTick: number;
  /** Width of the plot between its axes, in pixels. */
  readonly width: number;
}

const ZOOM_STEP = 1.25;
const PAN_SHARE = 0.1;
const CURSOR_STEP = 4;

/** Wheel zooms where the pointer is, drag moves, keys do both; `at` is the point being read. */
export function useTraceGestures(given: Given) {
  const latest = useRef(given);
  latest.current = given;
  const [at, setAt] = useState<number | null>(null);
  const drag = useRef<{ x: number; view: TraceView } | null>(null);

  const plotX = (clientX: number): number => {
    const left = latest.current.ref.current?.getBoundingClientRect().left ?? 0;
    return Math.min(latest.current.width, Math.max(0, clientX - left - PLOT.left));
  };

  // React listens to wheels passively; zooming must keep the page still.
  useEffect(() => {
    const element = given.ref.current;
    if (element === null) return;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { view, onView, endTick, width } = latest.current;
      if (Math.abs(event.deltaX) > Math.abs(event.deltaY)) {
        onView(pan(view, event.deltaX / width, endTick));
        return;
      }
      const range = rangeOf(view, endTick);
      const left = element.getBoundingClientRect().left + PLOT.left;
      const share = Math.min(1, Math.max(0, (event.clientX - left) / width));
      const tick = range.fromTick + share * (range.toTick - range.fromTick);
      const factor = event.deltaY > 0 ? ZOOM_STEP : 1 / ZOOM_STEP;
      onView(zoom(view, factor, view.follow && share > 0.9 ? null : tick, endTick));
    };
    element.addEventListener('wheel', onWheel, { passive: false });
    return () => element.removeEventListener('wheel', onWheel);
  }, [given.ref]);

  const onPointerMove = (event: PointerEvent) => {
    const { width, onView, endTick } = latest.current;
    const x = plotX(event.clientX);
    if (drag.current === null) {
      setAt(x);
      return;
    }
    const moved = (drag.current.x - event.clientX) / width;
    if (Math.abs(moved * width) > 3) onView(pan(drag.current.view, moved, endTick));
  };

  const onKeyDown = (event: KeyboardEvent) => {
    const { view, onView, endTick, width } = latest.current;
    if (event.ctrlKey || event.altKey || event.metaKey) return;
    const back = event.key === 'ArrowLeft';
    if (back || event.key === 'ArrowRight') {
      if (event.shiftKey) {
        const from = at ?? width;
        setAt(Math.min(width, Math.max(0, from + (back ? -CURSOR_STEP : CURSOR_STEP))));
      } else onView(pan(view, back ? -PAN_SHARE : PAN_SHARE, endTick));
    } else if (event.key === '+' || event.key === '=') {
      onView(zoom(view, 1 / ZOOM_STEP, null, endTick));
    } else if (event.key === '-') onView(zoom(view, ZOOM_STEP, null, endTick));
    else if (event.key === 'Home') onView(pan(view, -1e9, endTick));
    else if (event.key === 'End') {
      const { fromTick, toTick } = rangeOf(view, endTick);
      onView({ follow: true, spanTicks: view.follow ? view.spanTicks : toTick - fromTick });
    } else return;
    event.preventDefault();
  };

  return {
    at,
    handlers: {
      onKeyDown,
      onPointerMove,
      onPointerDown: (event: PointerEvent) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        drag.current = { x: event.clientX, view: latest.current.view };
      },
      onPointerUp: () => {
        drag.current = null;
      },
      onPointerLeave: () => setAt(null),
      onBlur: () => setAt(null),
    },
  };
}
