import { findJobRow } from './job-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import { LiveRun } from './live-run.ts';
import type { LiveRuns } from './live-runs.ts';
import { traceOfMeter } from './meter-columns.ts';
import { missing } from './missing.ts';
import { writePyramid } from './pyramid-store.ts';
import type { RecorderCalls } from './recorder-calls.ts';
import { insertReport } from './report-store.ts';
import { findRunRow, insertRunRow, runsOfRows, updateRunRow } from './run-store.ts';

/** The calls that record runs. Samples are committed at most 0.5 s after they were handed in. */
export function createRecorder(
  context: LedgerContext,
  live: LiveRuns,
): Pick<RecorderCalls, 'startRun' | 'appendSupply' | 'appendMeter' | 'saveReport' | 'endRun'> {
  const { db, newId, jobChanged } = context;

  const runOf = async (id: string) => {
    const row = await findRunRow(db, id);
    if (row === undefined) throw missing('run', id);
    const [run] = await runsOfRows(db, [row]);
    return run!;
  };

  return {
    async startRun(start) {
      if (start.jobId !== null && (await findJobRow(db, start.jobId)) === undefined) {
        throw missing('job', start.jobId);
      }
      const id = newId();
      await insertRunRow(db, id, start);
      live.begin(new LiveRun(id, start));
      if (start.jobId !== null) jobChanged(start.jobId);
      return runOf(id);
    },

    async appendSupply({ runId, columns }) {
      live.append(runId, { role: 'supply', quantity: null }, columns);
      return null;
    },

    async appendMeter({ runId, columns }) {
      live.append(runId, { role: 'meter', quantity: columns.quantity }, traceOfMeter(columns));
      return null;
    },

    async saveReport({ runId, report, settings }) {
      const run = live.find(runId);
      if (run !== undefined) {
        run.say(report, settings);
        live.wake();
        return null;
      }
      if ((await findRunRow(db, runId)) === undefined) throw missing('run', runId);
      await insertReport(db, { id: newId(), runId, madeAt: context.now(), report, settings });
      return null;
    },

    async endRun({ runId, endedAt, end, report, settings }) {
      const run = live.get(runId);
      run.say(report, settings);
      await live.flush();
      let stored = () => {};
      await db.transaction().execute(async (trx) => {
        stored = (await run.writeReport(trx, { newId, nowMs: performance.now() })).stored;
        await updateRunRow(trx, runId, {
          ended_at: endedAt,
          end_reason: end,
          samples: run.samples,
          duration_s: run.durationS,
        });
        for (const track of run.tracks.values()) {
          if (run.trimmedTick === 0) await writePyramid(trx, track.row.id, track.pyramid);
        }
      });
      stored();
      live.forget(runId);
      if (run.jobId !== null) jobChanged(run.jobId);
      return runOf(runId);
    },
  };
}
