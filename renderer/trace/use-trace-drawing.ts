import { useRef } from 'react';
import type { TraceWindow } from '../../core/trace/sample.ts';
import type { TraceSource } from '../live/trace-source.ts';
import type { TraceDrawing, UnderRun } from './trace-drawing.ts';
import type { TickRange } from './trace-view.ts';
import { steadyAxis, type ValueAxis } from './value-axis.ts';

/** Most entries that a curve is drawn from, however wide the window is. */
const MOST_COLUMNS = 1600;
const LEAST_AMPS = 0.01;
const LEAST_VOLTS = 1;

/** Reduces the stretch on screen and picks axes that hold still while the samples move. */
export function useTraceDrawing(
  source: TraceSource,
  range: TickRange,
  columns: number,
  under: UnderRun | null,
  setV: number | null,
  bandHighA = 0,
): TraceDrawing {
  const axes = useRef<{ runId: string; amps: ValueAxis; volts: ValueAxis } | null>(null);
  const window = source.window(range.fromTick, range.toTick, Math.min(MOST_COLUMNS, columns));
  const before = axes.current?.runId === source.runId ? axes.current : null;
  const amps = steadyAxis(
    before?.amps ?? null,
    lowest(window.ampsMin),
    Math.max(
      bandHighA,
      highest(window.ampsMax),
      under === null ? 0 : highest(under.window.ampsMax),
    ),
    LEAST_AMPS,
  );
  const volts = steadyAxis(
    before?.volts ?? null,
    lowest(window.voltsMin),
    Math.max(highest(window.voltsMax), setV ?? 0),
    LEAST_VOLTS,
  );
  axes.current = { runId: source.runId, amps, volts };
  return { window, under, ampsAxis: amps, voltsAxis: volts };
}

function highest(values: TraceWindow['ampsMax']): number {
  let found = 0;
  for (const value of values) if (value > found) found = value;
  return found;
}

function lowest(values: TraceWindow['ampsMin']): number {
  let found = 0;
  for (const value of values) if (value < found) found = value;
  return found;
}
