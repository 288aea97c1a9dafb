import { WakelineError } from '../../core/errors.ts';
import type { Job } from '../../core/job/job.ts';
import type { RecorderCalls } from '../ledger/recorder-calls.ts';

/** Throws `gate-closed` while steps of the job that come before power are open. */
export async function checkJobGates(
  ledger: Pick<RecorderCalls, 'openGates'>,
  job: Job | null,
): Promise<void> {
  if (job === null) return;
  const open = await ledger.openGates({ jobId: job.id });
  if (open.length === 0) return;
  throw new WakelineError({
    code: 'gate-closed',
    what: `Before power: ${open.map((step) => step.title).join('; ')}`,
    where: `job ${job.number}`,
    todo: 'Do these steps, or skip each with a reason.',
  });
}
