import { REGULATION_CODES, TICKS_PER_SECOND, type TraceColumns } from './sample.ts';

/** First line of a written trace file; `createTraceFileReader` knows it. */
export const CSV_HEADER = 'time_s,volts_V,amps_A,regulation\n';

/**
 * Samples as CSV rows (`CSV_HEADER` goes above): seconds with four decimals, readings by their
 * shortest exact digits, an empty cell for a reading that was not taken. Nothing is rounded: what
 * is read back is the same to the last bit.
 */
export function csvRows({ ticks, volts, amps, regulation }: TraceColumns): string {
  let text = '';
  for (let i = 0; i < ticks.length; i += 1) {
    const told = REGULATION_CODES[regulation[i]!] ?? '';
    text += `${secondsText(ticks[i]!)},${cell(volts[i]!)},${cell(amps[i]!)},${told}\n`;
  }
  return text;
}

/** Samples as JSON Lines: an object a sample, `null` for what was not taken or not told. */
export function jsonLines({ ticks, volts, amps, regulation }: TraceColumns): string {
  let text = '';
  for (let i = 0; i < ticks.length; i += 1) {
    const told = REGULATION_CODES[regulation[i]!] ?? null;
    const numbers = `"timeS":${secondsText(ticks[i]!)},"volts":${jsonNumber(volts[i]!)},"amps":${jsonNumber(amps[i]!)}`;
    text += `{${numbers},"regulation":${told === null ? 'null' : `"${told}"`}}\n`;
  }
  return text;
}

function secondsText(tick: number): string {
  return (tick / TICKS_PER_SECOND).toFixed(4);
}

function cell(value: number): string {
  return Number.isFinite(value) ? String(value) : '';
}

function jsonNumber(value: number): string {
  return Number.isFinite(value) ? String(value) : 'null';
}
