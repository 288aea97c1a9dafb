import { stageLevels, stageThresholds } from '../../core/bands/stage-evidence.ts';
import type { StageEvidence } from '../../core/contract/match-calls.ts';
import type { Run } from '../../core/job/job.ts';
import { isSameFeed } from '../../core/job/known-runs.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import { goodRunsOfModel } from './good-run-store.ts';
import { findJobRow } from './job-store.ts';
import type { Db } from './ledger-context.ts';
import type { RunReader } from './run-reader.ts';
import { findRunRow, settingsOfRun } from './run-store.ts';

/** Samples of a stage that are looked at: two hours at 20 Hz. */
const MOST_SAMPLES = 150_000;

/** What a stage's name rests on, from the run's own samples and what its tracker was told. */
export async function evidenceOfStage(
  db: Db,
  reader: RunReader,
  o: { run: Run; report: StageReport; startS: number; endS: number },
): Promise<StageEvidence> {
  const { run, report, startS, endS } = o;
  const [fromTick, toTick] = [startS, endS].map((at) => Math.round(at * TICKS_PER_SECOND));
  const columns = await reader.samples(run.id, fromTick!, toTick!, MOST_SAMPLES);
  const row = await findRunRow(db, run.id);
  const settings = settingsOfRun(row!);
  const stage = report.stages.find((one) => one.startS <= startS + 1e-6 && one.endS > startS);
  const job = run.jobId === null ? undefined : await findJobRow(db, run.jobId);
  const key = job?.board_key ?? null;
  const good =
    key === null ? [] : await goodRunsOfModel(db, reader, { boardKey: key, notRunId: run.id });
  const goodRuns: StageEvidence['goodRuns'][number][] = [];
  for (const { id, feed } of good) {
    const other = await findRunRow(db, id);
    if (other === undefined || other.started_at >= run.startedAt || !isSameFeed(feed, run.feed))
      continue;
    const its = other.job_id === null ? undefined : await findJobRow(db, other.job_id);
    const held = good.find((one) => one.id === id)!.report.reach.heldA;
    goodRuns.push({
      runId: id,
      jobNumber: its?.number ?? null,
      startedAt: other.started_at,
      heldA: held,
    });
  }
  return {
    levels: stageLevels(columns),
    steps: report.steps.filter(({ atS }) => atS >= startS - 1e-6 && atS < endS),
    thresholds: stageThresholds({ stage: stage?.stage ?? 'off' }, settings),
    goodRuns,
    isFromNotes: goodRuns.length === 0 && settings.runningA !== null,
  };
}
