import type { Selectable } from 'kysely';
import { buildBand } from '../../core/bands/build-band.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { LikeRun, matchCalls } from '../../core/contract/match-calls.ts';
import type { runCalls } from '../../core/contract/run-calls.ts';
import { WakelineError } from '../../core/errors.ts';
import type { Run } from '../../core/job/job.ts';
import { boardKey } from '../../core/job/same-thing.ts';
import { compareRuns } from '../../core/match/compare-runs.ts';
import { feedDifference } from '../../core/match/feed-difference.ts';
import { likenessWords } from '../../core/match/likeness-words.ts';
import type { NearRun } from '../../core/match/signature-index.ts';
import { classifyAgain } from './classify-again.ts';
import { feedVOf, goodRunsOfModel } from './good-run-store.ts';
import { findJobRow } from './job-store.ts';
import type { LedgerContext } from './ledger-context.ts';
import { newestOutcome } from './outcome-store.ts';
import type { RecorderCalls } from './recorder-calls.ts';
import type { RunReader } from './run-reader.ts';
import { findRunRow, runsOfRows } from './run-store.ts';
import { signatureOfRun } from './signature-store.ts';
import type { Signatures } from './signatures.ts';
import { evidenceOfStage } from './stage-evidence-store.ts';
import type { JobRow } from './tables.ts';

interface Parts {
  readonly reader: RunReader;
  readonly signatures: Signatures;
  readonly readRun: Handlers<typeof runCalls>['readRun'];
  readonly settingsFor: RecorderCalls['settingsFor'];
}

/** Asked for beyond what is wanted: runs of binned jobs are in the index too. */
const SPARE = 20;

/** The window's calls that lay runs beside one another. */
export function createMatchHandlers(
  context: LedgerContext,
  parts: Parts,
): Handlers<typeof matchCalls> {
  const { db } = context;
  const { reader, signatures } = parts;

  const jobOf = async (run: Run): Promise<Selectable<JobRow> | undefined> =>
    run.jobId === null ? undefined : findJobRow(db, run.jobId);

  const likeRun = async (near: NearRun, asked: Run): Promise<LikeRun | null> => {
    const row = await findRunRow(db, near.id);
    if (row === undefined) return null;
    const [run] = await runsOfRows(db, [row]);
    const job = await jobOf(run!);
    if (job !== undefined && job.binned_at !== null) return null;
    const outcome = job?.state === 'closed' ? await newestOutcome(db, job.id) : null;
    return {
      run: run!,
      jobNumber: job?.number ?? null,
      boardModel: job?.board_model ?? null,
      distance: near.distance,
      likeness: likenessWords(near.distance),
      unlikeFeed: feedDifference(asked.feed, run!.feed),
      outcome: outcome === null ? null : { verdict: outcome.verdict, cause: outcome.cause },
    };
  };

  return {
    async likeRuns({ runId, limit }) {
      const { run, report } = await parts.readRun({ id: runId });
      const signature = await signatureOfRun(db, reader, runId, report);
      if (signature === null) {
        return { runs: [], among: 0, why: 'This run has no draw that could be looked for.' };
      }
      const near = await signatures.nearest(signature, limit + SPARE, runId);
      const found: LikeRun[] = [];
      let gone = 0;
      for (const one of near) {
        if (found.length === limit) break;
        const like = await likeRun(one, run);
        if (like === null) gone += 1;
        else found.push(like);
      }
      // So many runs were deleted that they crowd out the others: begin again without them.
      if (gone > SPARE / 2) signatures.forget();
      const why = found.length > 0 ? null : 'No other run of this ledger can be compared with it.';
      return { runs: found, among: signatures.size, why };
    },

    async bandFor({ jobId, boardModel, feed, feedV, notRunId }) {
      const job = jobId === null ? undefined : await findJobRow(db, jobId);
      const key = job?.board_key ?? boardKey(boardModel);
      if (key === null) {
        const why = 'The board model is not known: there is no band to compare with.';
        return { bands: [], why, leftOut: null };
      }
      const runs = await goodRunsOfModel(db, reader, { boardKey: key, notRunId });
      return buildBand({ runs, feed, feedV });
    },

    async stageEvidence({ runId, startS, endS }) {
      const { run, report } = await parts.readRun({ id: runId });
      return evidenceOfStage(db, reader, { run, report, startS, endS });
    },

    async classifyAgain({ runId }) {
      const { run } = await parts.readRun({ id: runId });
      if (run.endedAt === null) {
        throw new WakelineError({
          code: 'bad-input',
          what: 'This run is still being recorded',
          where: `run ${runId}`,
          todo: 'Its stages are named as it goes on. Ask again once it has ended.',
        });
      }
      const { jobId, setV, limitA, feed } = run;
      const settings = await parts.settingsFor({ jobId, setV, limitA, feed, notRunId: runId });
      await classifyAgain(context, runId, settings);
      if (jobId !== null) context.jobChanged(jobId);
      return (await parts.readRun({ id: runId })).report;
    },

    async compareRuns({ ids, alignBy }) {
      const read = await Promise.all([...new Set(ids)].map((id) => parts.readRun({ id })));
      const told = compareRuns(
        read.map(({ run, report }) => ({ id: run.id, report, feedV: feedVOf(run) })),
        alignBy,
      );
      return Promise.all(
        read.map(async ({ run, report }, i) => {
          const job = await jobOf(run);
          return {
            ...told[i]!,
            run,
            report,
            jobNumber: job?.number ?? null,
            boardModel: job?.board_model ?? null,
            unlikeFeed: feedDifference(read[0]!.run.feed, run.feed),
          };
        }),
      );
    },
  };
}
