import type { TraceColumns } from '../../core/trace/sample.ts';
import { lowerBound } from '../../core/trace/window-of-samples.ts';

/** Columns that grow at the end; 8 hours at 20 Hz take about 15 MB. */
export interface GrowingColumns {
  readonly size: () => number;
  readonly append: (columns: TraceColumns) => void;
  /** The samples with `fromTick <= tick < toTick` and one neighbour on either side. No copy. */
  readonly between: (fromTick: number, toTick: number) => TraceColumns;
}

export function createGrowingColumns(room = 4096): GrowingColumns {
  let ticks = new Float64Array(room);
  let volts = new Float64Array(room);
  let amps = new Float64Array(room);
  let regulation = new Uint8Array(room);
  let size = 0;

  const grow = (wanted: number): void => {
    let capacity = ticks.length;
    while (capacity < wanted) capacity *= 2;
    const wider = (from: Float64Array) => {
      const to = new Float64Array(capacity);
      to.set(from.subarray(0, size));
      return to;
    };
    ticks = wider(ticks);
    volts = wider(volts);
    amps = wider(amps);
    const codes = new Uint8Array(capacity);
    codes.set(regulation.subarray(0, size));
    regulation = codes;
  };

  return {
    size: () => size,
    append: (columns) => {
      const more = columns.ticks.length;
      if (size + more > ticks.length) grow(size + more);
      ticks.set(columns.ticks, size);
      volts.set(columns.volts, size);
      amps.set(columns.amps, size);
      regulation.set(columns.regulation, size);
      size += more;
    },
    between: (fromTick, toTick) => {
      const filled = ticks.subarray(0, size);
      const from = Math.max(0, lowerBound(filled, fromTick) - 1);
      const to = Math.min(size, lowerBound(filled, toTick) + 1);
      return {
        ticks: ticks.subarray(from, to),
        volts: volts.subarray(from, to),
        amps: amps.subarray(from, to),
        regulation: regulation.subarray(from, to),
      };
    },
  };
}
