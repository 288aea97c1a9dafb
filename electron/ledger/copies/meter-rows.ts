import { TICKS_PER_SECOND, type TraceColumns } from '../../../core/trace/sample.ts';

/** A meter track's samples as CSV rows: the reading, empty where none was taken, `over` over range. */
export function meterRows({ ticks, volts, regulation }: TraceColumns): string {
  let text = '';
  for (let i = 0; i < ticks.length; i += 1) {
    const value = volts[i] ?? Number.NaN;
    const isOver = regulation[i] === 1;
    const shown = isOver ? 'over' : Number.isFinite(value) ? String(value) : '';
    text += `${((ticks[i] ?? 0) / TICKS_PER_SECOND).toFixed(4)},${shown}\n`;
  }
  return text;
}
