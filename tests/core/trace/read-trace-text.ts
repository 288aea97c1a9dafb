import { WakelineError } from '../../../core/errors.ts';
import type { TraceFileOptions } from '../../../core/trace/csv-options.ts';
import { createTraceFileReader, type TraceFileSummary } from '../../../core/trace/csv-read.ts';
import type { Sample } from '../../../core/trace/sample.ts';

/** A whole text read at once, or in the given pieces. */
export function readTraceText(
  text: string | readonly string[],
  options: TraceFileOptions = {},
): TraceFileSummary & { read: Sample[] } {
  const read: Sample[] = [];
  const reader = createTraceFileReader(options, (sample) => read.push(sample));
  for (const piece of typeof text === 'string' ? [text] : text) reader.push(piece);
  return { ...reader.finish(), read };
}

/** Ticks, volts and amps of a text, row by row. */
export function rowsOf(text: string, options: TraceFileOptions = {}) {
  return readTraceText(text, options).read.map(({ tick, volts, amps }) => [tick, volts, amps]);
}

/** Where the trouble with a text is, and what it is. */
export function troubleWith(text: string, options: TraceFileOptions = {}) {
  try {
    readTraceText(text, options);
  } catch (thrown) {
    if (thrown instanceof WakelineError) return thrown.trouble;
    throw thrown;
  }
  throw new WakelineError({ code: 'internal', what: 'it was read', where: '', todo: '' });
}
