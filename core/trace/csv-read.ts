import { findLayout, findWholeLayout, type TraceLayout } from './csv-layout.ts';
import { createLineCutter } from './csv-lines.ts';
import type { TraceFileOptions } from './csv-options.ts';
import { createRowReader, type RowCounts, type RowReader } from './csv-rows.ts';
import type { Sample } from './sample.ts';

/** What a trace file held. */
export interface TraceFileSummary extends RowCounts {
  /** Lines of the file. */
  readonly lines: number;
  readonly layout: TraceLayout;
}

/** Reads a trace file that arrives in pieces. */
export interface TraceFileReader {
  /** Takes the next piece of text, cut anywhere. */
  push(text: string): void;
  /** Ends the file. */
  finish(): TraceFileSummary;
}

/** Lines looked at for the layout; doubled while they hold no row of numbers. */
const FIRST_LINES = 128;
const MOST_FIRST_LINES = 8192;
/** So many characters without a row of numbers are no trace file. */
const MOST_FIRST_TEXT = 8e6;

/**
 * A reader that finds separator, decimal mark, header, units and columns by itself (`findLayout`),
 * then hands each row to `use` as a sample: ticks from the first row, volts, amps and regulation
 * where the file has them, null where a cell is empty or says "over range". It keeps no rows, so
 * a file of any length needs the same memory. How the text is cut into pieces changes nothing.
 *
 * Comment rows, blank lines and repeated headers are passed over. A row with another number of
 * cells (two records glued where bytes were lost, a cut last line) is left out whole and counted:
 * its cells are never shifted. Throws `bad-trace-file`, naming row and column, for text where a
 * number is due, for times that go back (`createTimeLine`), when a needed column is missing and
 * when there is no row at all.
 */
export function createTraceFileReader(
  options: TraceFileOptions,
  use: (sample: Sample) => void,
): TraceFileReader {
  const cutter = createLineCutter();
  let first: string[] = [];
  let firstText = 0;
  let lookAt = FIRST_LINES;
  let known: { layout: TraceLayout; rows: RowReader } | null = null;
  let lines = 0;

  const begin = (layout: TraceLayout) => {
    const rows = createRowReader(layout, first, use);
    for (let i = layout.firstLine; i < first.length; i += 1) rows.read(first[i]!, i + 1);
    first = [];
    return { layout, rows };
  };
  const takeLine = (line: string): void => {
    lines += 1;
    if (known !== null) {
      known.rows.read(line, lines);
      return;
    }
    first.push(line);
    firstText += line.length;
    const isLast = lines >= MOST_FIRST_LINES || firstText > MOST_FIRST_TEXT;
    if (lines < lookAt && !isLast) return;
    const layout = findLayout(first, options, isLast);
    if (layout === null) lookAt *= 2;
    else known = begin(layout);
  };

  return {
    push: (text) => cutter.push(text, takeLine),
    finish() {
      cutter.finish(takeLine);
      const { layout, rows } = known ?? begin(findWholeLayout(first, options));
      return { ...rows.finish(lines), lines, layout };
    },
  };
}
