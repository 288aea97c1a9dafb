import type { TraceColumns } from '../../core/trace/sample.ts';

/** Stretches put one behind the other, in arrays of their own. */
export function joinColumns(parts: readonly TraceColumns[]): TraceColumns {
  const length = parts.reduce((sum, part) => sum + part.ticks.length, 0);
  const joined: TraceColumns = {
    ticks: new Float64Array(length),
    volts: new Float64Array(length),
    amps: new Float64Array(length),
    regulation: new Uint8Array(length),
  };
  let at = 0;
  for (const part of parts) {
    joined.ticks.set(part.ticks, at);
    joined.volts.set(part.volts, at);
    joined.amps.set(part.amps, at);
    joined.regulation.set(part.regulation, at);
    at += part.ticks.length;
  }
  return joined;
}
