import type { Job } from '../../core/job/job.ts';
import type { Ledger } from '../ledger/ledger-client.ts';

/** A job as the bench knows it: what it does not say of its board is taken from the board's table. */
export async function withBoardFacts(
  ledger: { readonly handlers: Pick<Ledger['handlers'], 'readBoard'> },
  job: Job,
): Promise<Job> {
  const known =
    job.boardModel === null ? null : await ledger.handlers.readBoard({ name: job.boardModel });
  if (known === null) return job;
  const { board } = job;
  const { stated } = known;
  return {
    ...job,
    board: {
      statedInputV: board.statedInputV ?? stated.statedInputV,
      statedLimitA: board.statedLimitA ?? stated.statedLimitA,
      runningA: board.runningA ?? stated.runningA,
      runsFlat: board.runsFlat ?? stated.runsFlat,
    },
  };
}
