import { openGates } from '../../core/checklist/gates.ts';
import { settingsFromRuns } from '../../core/job/known-runs.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { changeJobWith } from './change-job.ts';
import { trackExtent, writeChunks } from './chunk-store.ts';
import { checklistOf } from './item-handlers.ts';
import { findJobRow } from './job-store.ts';
import { boardFactsFor, knownRunsOfModel } from './known-run-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { LiveRun } from './live-run.ts';
import type { LiveRuns } from './live-runs.ts';
import { traceOfMeter } from './meter-columns.ts';
import { missing } from './missing.ts';
import { insertRunNote } from './note-store.ts';
import { writePyramid } from './pyramid-store.ts';
import type { RecorderCalls } from './recorder-calls.ts';
import { insertReport } from './report-store.ts';
import { tickRunItems } from './run-items.ts';
import type { RunReader } from './run-reader.ts';
import { hasFit } from './run-roles.ts';
import { findRunRow, insertRunRow, runsOfRows, updateRunRow } from './run-store.ts';
import { indexRun } from './search-index-store.ts';
import type { Signatures } from './signatures.ts';
import { trimLoose } from './trim-loose.ts';
import { learnedZeroA } from './zero-floor-store.ts';

/**
 * The calls that record runs. An append that rejects took nothing; one that resolves is committed
 * at most 0.5 s later.
 */
export function createRecorder(
  context: LedgerContext,
  parts: { live: LiveRuns; reader: RunReader; signatures: Signatures },
): RecorderCalls {
  const { db, newId, now, jobChanged } = context;
  const { live, reader } = parts;

  const runOf = async (id: string) => {
    const row = await findRunRow(db, id);
    if (row === undefined) throw missing('run', id);
    const [run] = await runsOfRows(db, [row]);
    return run!;
  };

  /** What of a run's supply track is stored: its ring may have let go of the beginning. */
  const extentOf = async (from: Db, run: LiveRun) => {
    const track = run.supply;
    if (track === undefined) return { samples: 0, duration_s: 0 };
    const { samples, lastTick } = await trackExtent(from, track.row.id);
    return { samples, duration_s: Math.max(0, lastTick) / TICKS_PER_SECOND };
  };

  return {
    async startRun(start) {
      if (start.jobId !== null) {
        const job = await findJobRow(db, start.jobId);
        if (job === undefined || job.binned_at !== null) throw missing('job', start.jobId);
      }
      const id = newId();
      await db.transaction().execute(async (trx) => {
        await insertRunRow(trx, id, start);
        if (start.huntId == null) return;
        await trx.insertInto('hunt_runs').values({ run_id: id, hunt_id: start.huntId }).execute();
      });
      if (start.kind === 'powered' && start.jobId !== null && (await hasFit(db, start.jobId))) {
        await updateRunRow(db, id, { role: 'after' });
      }
      live.begin(new LiveRun(id, start));
      if (start.jobId !== null) jobChanged(start.jobId);
      return runOf(id);
    },

    async appendSupply({ runId, columns }) {
      await live.append(runId, { role: 'supply', quantity: null }, columns);
      return null;
    },

    async appendMeter({ runId, columns }) {
      const what = { role: 'meter', quantity: columns.quantity } as const;
      await live.append(runId, what, traceOfMeter(columns));
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
      await db.transaction().execute(async (trx) => {
        await insertReport(trx, { id: newId(), runId, madeAt: now(), report, settings });
        await indexRun(trx, runId);
      });
      return null;
    },

    async endRun({ runId, endedAt, end, report, settings }) {
      const run = live.get(runId);
      run.say(report, settings);
      await live.flush();
      const done: (() => void)[] = [];
      const close = async (trx: Db) => {
        const nowMs = performance.now();
        const { stored } = await run.writeReport(trx, { newId, nowMs, madeAt: now() });
        done.push(stored);
        for (const track of run.tracks.values()) {
          const { rows, gone, saved } = track.unsaved(nowMs, true);
          await writeChunks(trx, track.row.id, rows, gone);
          done.push(saved);
        }
        await updateRunRow(trx, runId, {
          ended_at: endedAt,
          end_reason: end,
          ...(await extentOf(trx, run)),
        });
        if (run.trimmedTick > 0) return;
        for (const track of run.tracks.values()) {
          await writePyramid(trx, track.row.id, track.pyramid);
        }
      };
      if (run.jobId === null) await db.transaction().execute(close);
      else {
        const jobId = run.jobId;
        await changeJobWith(context, jobId, async (trx) => {
          await close(trx);
          await indexRun(trx, runId);
          await tickRunItems(trx, jobId, now());
        });
      }
      for (const tell of done) tell();
      live.forget(runId);
      if (run.kind === 'powered') await parts.signatures.keep(runId, report);
      return runOf(runId);
    },

    async markEndOfRun({ runId, text }) {
      const { durationS, jobId } = await runOf(runId);
      const row = { id: newId(), run_id: runId, at_s: durationS, text, made_at: now() };
      const insert = async (trx: Db) => {
        await insertRunNote(trx, { ...row, mark: 'guard-trip' });
        await indexRun(trx, runId);
      };
      if (jobId === null) await db.transaction().execute(insert);
      else await changeJobWith(context, jobId, insert);
      return null;
    },

    trimLoose: ({ olderThan }) => trimLoose(context, live, olderThan),

    async settingsFor({ jobId, setV, limitA, feed, notRunId = null }) {
      const job = jobId === null ? undefined : await findJobRow(db, jobId);
      const key = job?.board_key ?? null;
      return settingsFromRuns({
        runs: key === null ? [] : await knownRunsOfModel(db, reader, key, notRunId),
        board: job === undefined ? null : await boardFactsFor(db, job),
        feed,
        setV,
        limitA,
        zeroFloorA: await learnedZeroA(db),
      });
    },

    async openGates({ jobId }) {
      if ((await findJobRow(db, jobId)) === undefined) throw missing('job', jobId);
      return openGates(await checklistOf(db, jobId)).map(({ id, title }) => ({ id, title }));
    },
  };
}
