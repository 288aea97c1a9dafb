import type { Selectable } from 'kysely';
import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND, type TraceColumns } from '../../core/trace/sample.ts';
import { chunksOfTrack, trackExtent } from './chunk-store.ts';
import type { Db, LedgerContext } from './ledger-context.ts';
import { FLUSH_MS } from './live-runs.ts';
import { buildPyramid, writePyramid } from './pyramid-store.ts';
import { replayedReport } from './replayed-report.ts';
import { insertReport, newestSummaries, readReport } from './report-store.ts';
import { tickRunItems } from './run-items.ts';
import { settingsOfRun, updateRunRow } from './run-store.ts';
import { indexJob, indexRun } from './search-index-store.ts';
import type { RunRow, TrackRow } from './tables.ts';
import { tracksOfRun } from './track-store.ts';

/** A run that the last app left unfinished, and at most how many seconds of it are missing. */
export interface RecoveredRun {
  readonly runId: string;
  readonly lostS: number;
}

/**
 * Closes every run that has no end at its last stored sample. Nothing of it is dropped; a loose
 * run without a single sample is deleted.
 */
export async function recoverRuns(context: LedgerContext): Promise<readonly RecoveredRun[]> {
  const { db } = context;
  const open = await db.selectFrom('runs').selectAll().where('ended_at', 'is', null).execute();
  const recovered: RecoveredRun[] = [];
  for (const run of open) {
    const tracks = await tracksOfRun(db, run.id);
    if (tracks.length === 0 && run.job_id === null) {
      await db.deleteFrom('runs').where('id', '=', run.id).execute();
      continue;
    }
    let lastTick = 0;
    let samples = 0;
    let supplyTick = 0;
    let waitedMs = 0;
    for (const track of tracks) {
      const extent = await trackExtent(db, track.id);
      lastTick = Math.max(lastTick, extent.lastTick);
      waitedMs = Math.max(waitedMs, extent.waitedMs);
      if (track.role !== 'supply') continue;
      samples = extent.samples;
      supplyTick = Math.max(0, extent.lastTick);
    }
    const report = await classifyAgain(db, run, tracks);
    await db.transaction().execute(async (trx) => {
      for (const track of tracks) {
        await writePyramid(trx, track.id, await buildPyramid(trx, track.id));
      }
      await updateRunRow(trx, run.id, {
        ended_at: run.started_at + Math.round((lastTick / TICKS_PER_SECOND) * 1000),
        end_reason: 'recovered',
        samples,
        duration_s: supplyTick / TICKS_PER_SECOND,
      });
      if (report !== null) {
        const settings = settingsOfRun(run);
        const [id, madeAt] = [context.newId(), context.now()];
        await insertReport(trx, { id, runId: run.id, madeAt, report, settings });
      }
      if (run.job_id === null) return;
      await tickRunItems(trx, run.job_id, context.now());
      await indexRun(trx, run.id);
      await indexJob(trx, run.job_id);
    });
    // What came after the newest commit is gone: at most as long as samples ever waited for one.
    recovered.push({ runId: run.id, lostS: Math.max(waitedMs, FLUSH_MS) / 1000 });
  }
  return recovered;
}

/** The newest report of a run that died may be seconds old: its samples have the last word. */
async function classifyAgain(
  db: Db,
  run: Selectable<RunRow>,
  tracks: readonly Selectable<TrackRow>[],
): Promise<StageReport | null> {
  const supply = tracks.find((track) => track.role === 'supply');
  if (supply === undefined) return null;
  const summary = (await newestSummaries(db, [run.id])).get(run.id);
  const before = summary === undefined ? null : await readReport(db, summary);
  const parts: TraceColumns[] = [];
  for await (const part of chunksOfTrack(db, supply.id, 0, Number.MAX_SAFE_INTEGER)) {
    parts.push(part);
  }
  return replayedReport(parts, settingsOfRun(run), before?.marks ?? [], before?.feedChanges);
}
