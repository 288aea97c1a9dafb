import type { Job } from '../job/job.ts';
import type { ShopClock } from '../record/record-time.ts';
import { shownTagCode } from './tag-code.ts';

/** Everything that a bag tag prints. The customer is not on it: bags lie about. */
export interface BagTag {
  readonly title: string;
  readonly board: string;
  readonly serial: string;
  readonly takenIn: string;
  /** What whoever opens the bag must know first. */
  readonly notes: readonly string[];
  /** The digits in the bars, and as they are read out. */
  readonly code: string;
  readonly shownCode: string;
  readonly fileName: string;
}

const LONGEST = 120;

/** A job's bag tag; `code` is its tag's code. */
export function buildBagTag(job: Job, code: string, clock: ShopClock): BagTag {
  const left = job.accessories.trim().slice(0, LONGEST);
  return {
    title: `Job ${job.number}`,
    board: job.boardModel ?? 'Board unknown',
    serial: job.serialNumber,
    takenIn: clock.date(job.createdAt),
    notes: [
      ...(job.liquid === 'yes' ? ['Liquid: dry and clean before power'] : []),
      ...(job.matters === 'data' || job.matters === 'both' ? ['The data matters'] : []),
      ...(left === '' ? [] : [`Left with it: ${left}`]),
    ],
    code,
    shownCode: shownTagCode(code),
    fileName: `Job ${job.number} tag.pdf`,
  };
}
