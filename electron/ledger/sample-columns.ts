import { REGULATION_CODES, type Sample, type TraceColumns } from '../../core/trace/sample.ts';

/** Gathers samples into columns. */
export interface SampleColumns {
  readonly size: number;
  push(sample: Sample): void;
  /** What was gathered, and begins again. */
  take(): TraceColumns;
}

export function createSampleColumns(): SampleColumns {
  let ticks: number[] = [];
  let volts: number[] = [];
  let amps: number[] = [];
  let regulation: number[] = [];
  return {
    get size() {
      return ticks.length;
    },
    push(sample) {
      ticks.push(sample.tick);
      volts.push(sample.volts ?? Number.NaN);
      amps.push(sample.amps ?? Number.NaN);
      regulation.push(Math.max(0, REGULATION_CODES.indexOf(sample.regulation)));
    },
    take() {
      const columns = {
        ticks: Float64Array.from(ticks),
        volts: Float64Array.from(volts),
        amps: Float64Array.from(amps),
        regulation: Uint8Array.from(regulation),
      };
      [ticks, volts, amps, regulation] = [[], [], [], []];
      return columns;
    },
  };
}
