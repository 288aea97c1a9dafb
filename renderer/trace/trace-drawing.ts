import type { TraceWindow } from '../../core/trace/sample.ts';
import type { ValueAxis } from './value-axis.ts';

/** An earlier run laid under: its samples are `shiftTicks` later on this run's clock. */
export interface UnderRun {
  readonly window: TraceWindow;
  readonly shiftTicks: number;
}

/** The stretch on screen, reduced, and the axes that hold it. */
export interface TraceDrawing {
  readonly window: TraceWindow;
  readonly under: UnderRun | null;
  readonly ampsAxis: ValueAxis;
  readonly voltsAxis: ValueAxis;
}
