import type { Mark } from '../../core/stages/stage.ts';
import type { TraceWindow } from '../../core/trace/sample.ts';
import type { ValueAxis } from './value-axis.ts';

/** An earlier run laid under: its samples are `shiftTicks` later on this run's clock. */
export interface UnderRun {
  readonly window: TraceWindow;
  readonly shiftTicks: number;
}

/** All that one picture of a trace needs. */
export interface TraceDrawing {
  readonly window: TraceWindow;
  readonly under: UnderRun | null;
  readonly ampsAxis: ValueAxis;
  readonly voltsAxis: ValueAxis;
  readonly limitA: number | null;
  readonly setV: number | null;
  readonly runningA: number | null;
  readonly marks: readonly Mark[];
}
