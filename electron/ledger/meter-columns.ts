import type { TraceColumns } from '../../core/trace/sample.ts';
import type { MeterColumns } from './recorder-calls.ts';

/**
 * A meter's readings in the columns that chunks are packed from: the value stands in the volts
 * column whatever its quantity (the track's row names it), overload in the regulation column.
 */
export function traceOfMeter(columns: MeterColumns): TraceColumns {
  return {
    ticks: columns.ticks,
    volts: columns.values,
    amps: new Float64Array(columns.values.length).fill(Number.NaN),
    regulation: columns.overload,
  };
}

/** The way back. */
export function meterOfTrace(
  columns: TraceColumns,
  quantity: MeterColumns['quantity'],
): MeterColumns {
  return {
    ticks: columns.ticks,
    values: columns.volts,
    overload: columns.regulation,
    quantity,
  };
}
