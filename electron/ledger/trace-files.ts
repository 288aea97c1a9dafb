import { stat } from 'node:fs/promises';
import path from 'node:path';
import type {
  ImportedTrace,
  TraceFile,
  TraceFormat,
  TraceProgress,
} from '../../core/contract/trace-file-calls.ts';
import type { Feed, Run } from '../../core/job/job.ts';
import { createTracker } from '../../core/stages/tracker.ts';
import { createTraceFileReader, type TraceFileSummary } from '../../core/trace/csv-read.ts';
import { readTextFile } from '../cli/read-text-file.ts';
import { chunksOfTrack } from './chunk-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import type { LiveRuns } from './live-runs.ts';
import type { RecorderCalls } from './recorder-calls.ts';
import { updateRunRow } from './run-store.ts';
import { createSampleColumns } from './sample-columns.ts';
import { supplyTrack } from './track-store.ts';
import { writeTrace } from './write-trace.ts';

/** Traces out of the ledger into files, and files into it. Main has asked for the place already. */
export interface TraceFiles {
  writeRun(o: { id: string; format: TraceFormat; path: string }): Promise<TraceFile>;
  readTrace(o: {
    path: string;
    jobId: string | null;
    feed: Feed;
    utcOffsetMin: number;
  }): Promise<ImportedTrace>;
}

interface Parts {
  readonly live: LiveRuns;
  readonly recorder: RecorderCalls;
  readonly readRun: (id: string) => Promise<Run>;
  readonly tell: (progress: TraceProgress) => void;
}

/** Samples that are committed together. */
const COMMIT_SAMPLES = 65_536;
const TELL_EVERY_MS = 200;

/** The ledger's side of trace files. */
export function createTraceFiles(context: LedgerContext, parts: Parts): TraceFiles {
  const { db } = context;
  const { live, recorder } = parts;

  async function* stretchesOf(runId: string) {
    if (live.find(runId) !== undefined) await live.flush();
    const track = await supplyTrack(db, runId);
    if (track !== undefined) yield* chunksOfTrack(db, track.id, 0, Number.MAX_SAFE_INTEGER);
  }

  /** As if it had never begun. */
  const forget = async (run: Run): Promise<void> => {
    live.forget(run.id);
    await db.deleteFrom('runs').where('id', '=', run.id).execute();
    if (run.jobId !== null) context.jobChanged(run.jobId);
  };

  return {
    async writeRun({ id, format, path: target }) {
      const run = await parts.readRun(id);
      return writeTrace({ run, format, path: target, stretches: stretchesOf(id) });
    },

    /**
     * Reads a trace file into a run of the job, streaming, and names its stages on the way. Nothing
     * is kept of a file that turns out to be unreadable half-way: throws `bad-trace-file`.
     */
    async readTrace({ path: source, jobId, feed, utcOffsetMin }) {
      const writtenAt = await stat(source).then(
        ({ mtimeMs }) => Math.round(mtimeMs),
        () => context.now(),
      );
      const settings = await recorder.settingsFor({ jobId, setV: null, limitA: null, feed });
      const run = await recorder.startRun({
        jobId,
        kind: 'powered',
        startedAt: writtenAt,
        utcOffsetMin,
        feed,
        setV: null,
        limitA: null,
        instrument: `file ${path.basename(source)}`.slice(0, 200),
        pretend: false,
        settings,
      });
      try {
        const tracker = createTracker(settings);
        const waiting = createSampleColumns();
        let samples = 0;
        const reader = createTraceFileReader({}, (sample) => {
          samples += 1;
          tracker.push(sample);
          waiting.push(sample);
        });
        const keep = async (): Promise<void> => {
          await recorder.appendSupply({ runId: run.id, columns: waiting.take() });
          await live.flush();
        };
        let toldAt = Number.NEGATIVE_INFINITY;
        await readTextFile(
          source,
          async (text) => {
            reader.push(text);
            if (waiting.size >= COMMIT_SAMPLES) await keep();
          },
          (readBytes, totalBytes) => {
            if (performance.now() - toldAt < TELL_EVERY_MS) return;
            toldAt = performance.now();
            parts.tell({ readBytes, totalBytes, samples });
          },
        );
        const summary = reader.finish();
        await keep();
        const report = tracker.finish();
        const startedAt = writtenAt - Math.round(report.durationS * 1000);
        await updateRunRow(db, run.id, { started_at: startedAt });
        const ended = await recorder.endRun({
          runId: run.id,
          endedAt: writtenAt,
          end: 'file-end',
          report,
          settings,
        });
        return { run: ended, notes: notesOn(summary) };
      } catch (thrown) {
        await forget(run);
        throw thrown;
      }
    },
  };
}

/** What a person should check: guesses about the layout and rows that were left out. */
function notesOn({ layout, rejected, firstRejected }: TraceFileSummary): readonly string[] {
  const [first] = firstRejected;
  if (first === undefined) return layout.notes;
  const left =
    rejected === 1
      ? `row ${first.row} was left out (${first.why})`
      : `${rejected} rows were left out, the first is row ${first.row} (${first.why})`;
  return [...layout.notes, left];
}
