import { setImmediate } from 'node:timers/promises';
import type { StageReport, TrackerSettings } from '../../core/stages/stage.ts';
import { chunksOfTrack } from './chunk-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import { createReplay } from './replayed-report.ts';
import { insertReport, newestSummaries, readReport } from './report-store.ts';
import { indexRun } from './search-index-store.ts';
import { supplyTrack } from './track-store.ts';

/**
 * Names the stages of an ended run again with what is known of its board now. Adds a
 * classification; the earlier ones stay. Marks that a person or a guard made are carried over, and so
 * are the set-points that changed during the run.
 * Null for a run without samples. Throws `bad-chunk`.
 */
export async function classifyAgain(
  context: LedgerContext,
  runId: string,
  settings: TrackerSettings,
): Promise<StageReport | null> {
  const { db } = context;
  const track = await supplyTrack(db, runId);
  if (track === undefined) return null;
  const summary = (await newestSummaries(db, [runId])).get(runId);
  const before = summary === undefined ? null : await readReport(db, summary);
  const replay = createReplay(settings, before?.feedChanges);
  for await (const part of chunksOfTrack(db, track.id, 0, Number.MAX_SAFE_INTEGER)) {
    replay.push(part);
    // A day takes seconds: what is being recorded meanwhile must reach the disk in time.
    await setImmediate();
  }
  const report = replay.finish(before?.marks ?? []);
  const [id, madeAt] = [context.newId(), context.now()];
  await db.transaction().execute(async (trx) => {
    await insertReport(trx, { id, runId, madeAt, report, settings });
    await indexRun(trx, runId);
  });
  return report;
}
