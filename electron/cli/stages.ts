import { troubleOf } from '../../core/errors.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import { createTraceFileReader, type TraceFileSummary } from '../../core/trace/csv-read.ts';
import { readTextFile } from './read-text-file.ts';
import { stagesJson } from './stages-json.ts';
import { STAGES_USAGE, stagesOptions } from './stages-options.ts';
import { stagesTable } from './stages-table.ts';

const TELL_EVERY_MS = 250;

/**
 * Names the stages of a trace file and prints them, as a table or (with `--json`) as one JSON
 * object. Returns the exit code: 0, or 2 for bad input, with one line on standard error that
 * names row and column.
 */
export async function stages(argv: readonly string[]): Promise<number> {
  try {
    const options = stagesOptions(argv);
    if (options === null) {
      process.stdout.write(STAGES_USAGE);
      return 0;
    }
    const tracker = createTracker(options.settings);
    const reader = createTraceFileReader(options.columns, (sample) => tracker.push(sample));
    const progress = progressLine(options.file);
    try {
      await readTextFile(options.file, (text) => reader.push(text), progress.tell);
    } finally {
      progress.clear();
    }
    const summary = reader.finish();
    const report = tracker.finish();
    process.stdout.write(options.json ? stagesJson(report, options.detail) : stagesTable(report));
    for (const note of notesOn(summary)) process.stderr.write(`stages: ${note}\n`);
    return 0;
  } catch (thrown) {
    const { code, what, where, todo } = troubleOf(thrown, 'stages');
    process.stderr.write(`stages: ${what} (${where}). ${todo}\n`.replace(/\n(?=.)/g, ' '));
    return code === 'internal' ? 1 : 2;
  }
}

/** What a person should check: guesses about the layout and rows that were left out. */
function notesOn({ layout, rejected, firstRejected }: TraceFileSummary): string[] {
  const notes = layout.notes.map((note) => `note: ${note}`);
  const [first] = firstRejected;
  if (first !== undefined) {
    notes.push(
      rejected === 1
        ? `note: row ${first.row} was left out (${first.why})`
        : `note: ${rejected} rows were left out, the first is row ${first.row} (${first.why})`,
    );
  }
  return notes;
}

function progressLine(file: string) {
  const isShown = process.stderr.isTTY === true;
  let toldAt = performance.now();
  return {
    tell(readBytes: number, totalBytes: number) {
      if (!isShown || totalBytes === 0 || performance.now() - toldAt < TELL_EVERY_MS) return;
      toldAt = performance.now();
      process.stderr.write(`\r${file}: ${Math.floor((100 * readBytes) / totalBytes)} % read`);
    },
    clear() {
      if (isShown) process.stderr.write('\r\u001b[K');
    },
  };
}
