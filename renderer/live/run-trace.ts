import { createPyramid } from '../../core/trace/pyramid.ts';
import { TICKS_PER_SECOND, type TraceColumns } from '../../core/trace/sample.ts';
import { windowOfSamples } from '../../core/trace/window-of-samples.ts';
import { createGrowingColumns } from './growing-columns.ts';
import type { TraceSource } from './trace-source.ts';

/** A run's samples in the window's memory, kept outside React: it may grow 20 times a second. */
export interface RunTrace extends TraceSource {
  readonly append: (columns: TraceColumns) => void;
  readonly samples: () => number;
  /** Every sample so far. No copy: read it and let it go. */
  readonly all: () => TraceColumns;
  /** The sample at or last before `tick`; null before the first and inside a gap. */
  readonly at: (tick: number) => TraceSample | null;
}

/** One sample as it lies in the columns; null = not told. `regulation` is a code. */
export interface TraceSample {
  readonly tick: number;
  readonly volts: number | null;
  readonly amps: number | null;
  readonly regulation: number;
}

/** A sample older than this is no reading of the moment. */
const STALE_TICKS = 2 * TICKS_PER_SECOND;

/** `room` is how many samples it will hold, where that is known: growing costs copies. */
export function createRunTrace(runId: string, room?: number): RunTrace {
  const columns = createGrowingColumns(room);
  const pyramid = createPyramid();
  const listeners = new Set<() => void>();
  let version = 0;

  return {
    runId,
    endTick: () => Math.max(0, pyramid.lastTick),
    lengthTick: () => Math.max(0, pyramid.lastTick),
    samples: columns.size,
    all: () => columns.between(0, Number.POSITIVE_INFINITY),
    version: () => version,
    append: (more) => {
      if (more.ticks.length === 0) return;
      columns.append(more);
      pyramid.append(more);
      version += 1;
      for (const listener of listeners) listener();
    },
    window: (fromTick, toTick, wanted) =>
      pyramid.isTooCoarse(fromTick, toTick, wanted)
        ? windowOfSamples(columns.between(fromTick, toTick), fromTick, toTick, wanted)
        : pyramid.window(fromTick, toTick, wanted),
    at: (tick) => {
      const { ticks, volts, amps, regulation } = columns.between(tick, tick + 1);
      const found = ticks.findLastIndex((one) => one <= tick);
      if (found < 0 || tick - ticks[found]! > STALE_TICKS) return null;
      return {
        tick: ticks[found]!,
        volts: told(volts[found]!),
        amps: told(amps[found]!),
        regulation: regulation[found]!,
      };
    },
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
  };
}

function told(value: number): number | null {
  return Number.isNaN(value) ? null : value;
}
