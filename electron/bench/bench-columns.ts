import { REGULATION_CODES, type Sample, type TraceColumns } from '../../core/trace/sample.ts';

/** Puts samples into columns: `NaN` for what was not told. */
export function columnsOf(samples: readonly Sample[]): TraceColumns {
  const count = samples.length;
  const columns = {
    ticks: new Float64Array(count),
    volts: new Float64Array(count),
    amps: new Float64Array(count),
    regulation: new Uint8Array(count),
  };
  for (const [index, sample] of samples.entries()) {
    columns.ticks[index] = sample.tick;
    columns.volts[index] = sample.volts ?? Number.NaN;
    columns.amps[index] = sample.amps ?? Number.NaN;
    columns.regulation[index] = Math.max(0, REGULATION_CODES.indexOf(sample.regulation));
  }
  return columns;
}
