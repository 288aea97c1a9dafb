import type { TraceWindow } from '../../core/trace/sample.ts';

/** Anything a trace can be drawn from: the live run, a finished one, a replay. */
export interface TraceSource {
  readonly runId: string;
  /** Tick of the newest sample that may be shown; 0 when there is none. */
  readonly endTick: () => number;
  /** How far the whole run reaches; in a replay this lies beyond `endTick`. */
  readonly lengthTick: () => number;
  /** `[fromTick, toTick)` reduced to at most `columns` entries, never past `endTick`. */
  readonly window: (fromTick: number, toTick: number, columns: number) => TraceWindow;
  /** Grows with every change, so that drawing is skipped when nothing came. */
  readonly version: () => number;
  readonly subscribe: (listener: () => void) => () => void;
}
