import { buildJobRecord } from '../../core/record/job-record.ts';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import type { Ledger } from './ledger-client.ts';

/** Columns of a run's curve on paper: more than a printed line can show. */
const PLOT_COLUMNS = 1200;

export interface RecordCalls {
  /** The content of a job's record; `printedAt` is UTC ms. Throws `not-found`. */
  recordOfJob(o: { jobId: string; paper: Paper; printedAt: number }): Promise<JobRecord>;
}

/**
 * Makes the record where the job lies: drawing a dozen curves takes a tenth of a second, and main
 * has instruments to read meanwhile.
 */
export function createRecordCalls(handlers: Ledger['handlers']): RecordCalls {
  const recordRun = async (id: string) => {
    const { run, report } = await handlers.readRun({ id });
    const toTick = Math.ceil(run.durationS * 10_000) + 1;
    const window = await handlers.readWindow({ id, fromTick: 0, toTick, columns: PLOT_COLUMNS });
    return { run, report, window };
  };

  return {
    async recordOfJob({ jobId, paper, printedAt }) {
      const whole = await handlers.readJob({ id: jobId });
      // A closed job is printed as it was weighed that day.
      const isClosed = whole.job.state === 'closed';
      const kept = isClosed ? await handlers.readKeptEvidence({ jobId }) : null;
      const powered = whole.runs.filter((run) => run.kind === 'powered');
      const terms = await handlers.readTerms({ jobId });
      return buildJobRecord({
        whole,
        runs: await Promise.all(powered.map(({ id }) => recordRun(id))),
        rails: (await handlers.railWalk({ jobId, state: null, isPowered: false })).job,
        partFacts: await handlers.readPartFacts({ jobId }),
        hunts: await handlers.listHunts({ jobId }),
        evidence: kept ?? (await handlers.likelyCauses({ jobId })),
        pictures: await handlers.listPictures({ jobId }),
        warranty: { until: terms.warrantyUntil, note: terms.warrantyNote },
        terms,
        printedAt,
        utcOffsetMin: -new Date(printedAt).getTimezoneOffset(),
        paper,
      });
    },
  };
}
