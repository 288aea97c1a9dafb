import type { Handlers } from '../../core/contract/contract.ts';
import type { runCalls } from '../../core/contract/run-calls.ts';
import type { Run } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { changeJobWith } from './change-job.ts';
import { findJobRow } from './job-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import type { LiveRuns } from './live-runs.ts';
import { missing } from './missing.ts';
import { insertRunNote, notesOfRun } from './note-store.ts';
import type { RecoveredRun } from './recover-runs.ts';
import { newestSummaries, readReport } from './report-store.ts';
import { tickRunItems } from './run-items.ts';
import type { RunReader } from './run-reader.ts';
import { feedColumns, findRunRow, runsOfJob, runsOfRows, updateRunRow } from './run-store.ts';
import { indexRun, unindexRun } from './search-index-store.ts';

/** Most earlier runs that are offered to lay under a live one. */
const MOST_TO_COMPARE = 100;

/** The window's calls about runs. */
export function createRunHandlers(
  context: LedgerContext,
  parts: { live: LiveRuns; reader: RunReader; recovered: readonly RecoveredRun[] },
): Handlers<typeof runCalls> {
  const { db } = context;
  const { live, reader } = parts;

  /** A run that goes on has its newest figures in memory. */
  const asItIs = (run: Run): Run => {
    const running = live.find(run.id);
    if (running === undefined) return run;
    const { report } = running;
    return {
      ...run,
      samples: running.samples,
      durationS: running.durationS,
      reach: report?.reach ?? run.reach,
      peakA: report?.peakA ?? run.peakA,
      energyWh: report?.energyWh ?? run.energyWh,
    };
  };

  const readRun = async (id: string): Promise<Run> => {
    const row = await findRunRow(db, id);
    if (row === undefined) throw missing('run', id);
    const [run] = await runsOfRows(db, [row]);
    return asItIs(run!);
  };

  const reportOf = async (run: Run): Promise<StageReport> => {
    const summary = (await newestSummaries(db, [run.id])).get(run.id);
    const said =
      live.find(run.id)?.report ??
      (summary === undefined ? unclassified(run) : await readReport(db, summary));
    const notes = await notesOfRun(db, run.id);
    if (notes.length === 0) return said;
    return { ...said, marks: [...said.marks, ...notes].sort((a, b) => a.atS - b.atS) };
  };

  /** Changes something of a run, in its job's own transaction when it has one. */
  const change = (run: Run, how: (db: Db) => Promise<void>): Promise<void> =>
    run.jobId === null ? db.transaction().execute(how) : changeJobWith(context, run.jobId, how);

  return {
    listRuns: async ({ jobId }) => (await runsOfJob(db, jobId)).map(asItIs),

    async readRun({ id }) {
      const run = await readRun(id);
      return { run, report: await reportOf(run) };
    },

    async readWindow({ id, fromTick, toTick, columns }) {
      await readRun(id);
      return reader.window(id, fromTick, toTick, columns);
    },

    async readSamples({ id, fromTick, toTick, limit }) {
      await readRun(id);
      return reader.samples(id, fromTick, toTick, limit);
    },

    async giveRun({ id, jobId }) {
      const before = await readRun(id);
      const give = async (trx: Db) => {
        if (before.jobId !== null) await unindexRun(trx, before.jobId, id);
        await updateRunRow(trx, id, { job_id: jobId });
        await indexRun(trx, id);
        if (jobId !== null) await tickRunItems(trx, jobId, context.now());
      };
      if (jobId === null) await db.transaction().execute(give);
      else await changeJobWith(context, jobId, give);
      const running = live.find(id);
      if (running !== undefined) running.jobId = jobId;
      if (before.jobId !== null && before.jobId !== jobId) {
        await changeJobWith(context, before.jobId, async () => {});
      }
      return readRun(id);
    },

    async changeRun({ id, role, feed }) {
      const run = await readRun(id);
      await change(run, async (trx) => {
        await updateRunRow(trx, id, { role, ...(feed === undefined ? {} : feedColumns(feed)) });
        await indexRun(trx, id);
      });
      return readRun(id);
    },

    async addRunNote({ id, atS, text }) {
      const run = await readRun(id);
      const row = { id: context.newId(), run_id: id, at_s: atS, text, made_at: context.now() };
      await change(run, async (trx) => {
        await insertRunNote(trx, { ...row, mark: 'note' });
        await indexRun(trx, id);
      });
      return reportOf(run);
    },

    async runsToCompare({ jobId }) {
      const job = jobId === null ? undefined : await findJobRow(db, jobId);
      const rows = await db
        .selectFrom('runs')
        .innerJoin('jobs', 'jobs.id', 'runs.job_id')
        .selectAll('runs')
        .select(['jobs.number as job_number', 'jobs.board_model', 'jobs.board_key'])
        .where('runs.kind', '=', 'powered')
        .where('runs.ended_at', 'is not', null)
        .where('runs.samples', '>', 0)
        .where('jobs.binned_at', 'is', null)
        .orderBy((eb) =>
          eb
            .case()
            .when('jobs.board_key', '=', job?.board_key ?? '')
            .then(0)
            .else(1)
            .end(),
        )
        .orderBy('runs.started_at', 'desc')
        .limit(MOST_TO_COMPARE)
        .execute();
      const runs = await runsOfRows(db, rows);
      return rows.map((row, i) => ({
        run: runs[i]!,
        jobNumber: row.job_number,
        boardModel: row.board_model,
      }));
    },

    async recovered() {
      const known: { run: Run; jobNumber: number | null; lostS: number }[] = [];
      for (const { runId, lostS } of parts.recovered) {
        const row = await findRunRow(db, runId);
        if (row === undefined) continue;
        const [run] = await runsOfRows(db, [row]);
        const job = row.job_id === null ? undefined : await findJobRow(db, row.job_id);
        known.push({ run: run!, jobNumber: job?.number ?? null, lostS });
      }
      return known;
    },
  };
}

/** What there is to say of a run that no tracker has looked at. */
function unclassified(run: Run): StageReport {
  return {
    trackerVersion: 0,
    samples: run.samples,
    durationS: run.durationS,
    reach: { stage: 'off', heldA: null, heldW: null, share: null },
    stages: [],
    marks: [],
    steps: [],
    energyWh: null,
    chargeAh: null,
    peakA: null,
  };
}
