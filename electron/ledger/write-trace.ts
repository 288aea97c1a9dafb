import { stat } from 'node:fs/promises';
import type { TraceFile, TraceFormat } from '../../core/contract/trace-file-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Run } from '../../core/job/job.ts';
import { CSV_HEADER, csvRows, jsonLines } from '../../core/trace/csv-write.ts';
import type { TraceColumns } from '../../core/trace/sample.ts';
import { writeWholeFile } from '../record/write-whole-file.ts';
import { parquetBytes } from './parquet-bytes.ts';

/** Samples turned into text at once. */
const TEXT_ROWS = 8_192;

/**
 * Writes every sample of a run to a file, whole or not at all, in pieces: a run of any length needs
 * the same memory. Throws `bad-input` for a run without samples, `bad-chunk`, `file-not-written`.
 */
export async function writeTrace(o: {
  run: Run;
  format: TraceFormat;
  path: string;
  stretches: AsyncIterable<TraceColumns>;
}): Promise<TraceFile> {
  const counted = { samples: 0 };
  await writeWholeFile(o.path, contentOf(o.run, o.format, counting(o.stretches, counted)));
  const { size } = await stat(o.path);
  return { path: o.path, samples: counted.samples, bytes: size };
}

function contentOf(
  run: Run,
  format: TraceFormat,
  stretches: AsyncIterable<TraceColumns>,
): AsyncIterable<string | Uint8Array> {
  if (format === 'parquet') return parquetBytes(stretches, factsOf(run));
  return textOf(
    stretches,
    format === 'csv' ? CSV_HEADER : '',
    format === 'csv' ? csvRows : jsonLines,
  );
}

async function* textOf(
  stretches: AsyncIterable<TraceColumns>,
  head: string,
  rowsOf: (columns: TraceColumns) => string,
): AsyncGenerator<string> {
  if (head !== '') yield head;
  for await (const { ticks, volts, amps, regulation } of stretches) {
    for (let from = 0; from < ticks.length; from += TEXT_ROWS) {
      const to = from + TEXT_ROWS;
      yield rowsOf({
        ticks: ticks.subarray(from, to),
        volts: volts.subarray(from, to),
        amps: amps.subarray(from, to),
        regulation: regulation.subarray(from, to),
      });
    }
  }
}

async function* counting(
  stretches: AsyncIterable<TraceColumns>,
  counted: { samples: number },
): AsyncGenerator<TraceColumns> {
  for await (const stretch of stretches) {
    counted.samples += stretch.ticks.length;
    yield stretch;
  }
  if (counted.samples > 0) return;
  throw new WakelineError({
    code: 'bad-input',
    what: 'This run holds no readings',
    where: 'export',
    todo: 'Choose another run. No file was written.',
  });
}

/** What a file says of its run beside the samples. */
function factsOf(run: Run): Record<string, string> {
  return {
    run: run.id,
    started_at: new Date(run.startedAt).toISOString(),
    instrument: run.instrument,
    pretend_bench: String(run.pretend),
    fed_at: run.feed.point,
    set_v: run.setV === null ? '' : String(run.setV),
    limit_a: run.limitA === null ? '' : String(run.limitA),
  };
}
