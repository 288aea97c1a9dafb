import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { LedgerContext } from './ledger-context.ts';
import type { LiveRuns } from './live-runs.ts';

const MS_PER_TICK = 1000 / TICKS_PER_SECOND;

/**
 * Lets go of what was recorded without a job before `olderThan` (UTC ms): whole runs that ended
 * before it, and the older stretches of a run that still goes on. Answers how many runs that
 * touched. Readings taken in them are kept.
 */
export async function trimLoose(
  context: LedgerContext,
  live: LiveRuns,
  olderThan: number,
): Promise<number> {
  const { db } = context;
  const gone = await db
    .deleteFrom('runs')
    .where('job_id', 'is', null)
    .where('ended_at', '<', olderThan)
    .returning('id')
    .execute();
  let touched = gone.length;
  for (const run of live.all()) {
    const beforeTick = Math.floor((olderThan - run.startedAt) / MS_PER_TICK);
    if (run.jobId !== null || beforeTick <= 0) continue;
    const ids = [...run.tracks.values()].map((track) => track.row.id);
    if (ids.length === 0) continue;
    const dropped = await db
      .deleteFrom('chunks')
      .where('track_id', 'in', ids)
      .where('to_tick', '<', beforeTick)
      .returning('to_tick')
      .execute();
    if (dropped.length === 0) continue;
    const newest = Math.max(...dropped.map((chunk) => chunk.to_tick));
    for (const track of run.tracks.values()) track.dropBefore(beforeTick);
    run.trimmedTick = Math.max(run.trimmedTick, newest + 1);
    touched += 1;
  }
  return touched;
}
