import type { JobState, Outcome } from '../job/job.ts';
import type { WaitingFor } from '../job/waiting-for.ts';
import type { Charge } from './charge.ts';

/** Who a board belongs to: only what is needed to reach them. */
export interface Customer {
  readonly id: string;
  readonly name: string;
  /** A telephone number or an address, as it was written. */
  readonly reach: string;
  readonly note: string;
  /** Jobs of theirs in the book. */
  readonly jobs: number;
}

/** How a customer said yes or no. */
export const ANSWERED_HOW = ['in-person', 'by-phone', 'in-writing'] as const;
export type AnsweredHow = (typeof ANSWERED_HOW)[number];

/** What was asked of a customer for a job, and what they said. */
export interface Quote {
  readonly id: string;
  readonly amountMinor: number;
  readonly currency: string;
  readonly words: string;
  readonly madeAt: number;
  readonly answer: 'open' | 'approved' | 'refused';
  readonly answeredAt: number | null;
  readonly answeredHow: AnsweredHow | null;
  readonly answerNote: string;
}

/** Another visit of the same serial number. */
export interface Visit {
  readonly id: string;
  readonly number: number;
  readonly createdAt: number;
  readonly state: JobState;
  readonly verdict: Outcome['verdict'] | null;
  /** `YYYY-MM-DD`, the last day; null = none given. */
  readonly warrantyUntil: string | null;
}

/** What belongs to a job beside the repair. */
export interface JobTerms {
  readonly jobId: string;
  readonly customer: Customer | null;
  /** What a waiting job waits for; null = it does not wait, or nobody said. */
  readonly waitingFor: WaitingFor | null;
  readonly warrantyUntil: string | null;
  readonly warrantyNote: string;
  /** Oldest first; the newest is the one that counts. */
  readonly quotes: readonly Quote[];
  readonly charges: readonly Charge[];
  /** Oldest first, without this job. */
  readonly visits: readonly Visit[];
}

/** What the shop sets once for all jobs. */
export interface ShopSettings {
  /** Three letters by ISO 4217; null = not set yet. */
  readonly currency: string | null;
  /** Price of an hour in minor units; 0 = none set. */
  readonly hourMinor: number;
  /** Days of warranty that a closed job is offered; 0 = none. */
  readonly warrantyDays: number;
}

export const NO_SHOP_SETTINGS: ShopSettings = { currency: null, hourMinor: 0, warrantyDays: 0 };

/**
 * The visit whose warranty covers a job taken in on `day` (`YYYY-MM-DD`): the newest one before it
 * whose last day has not passed. Null when there is none.
 */
export function coveredBy(visits: readonly Visit[], createdAt: number, day: string): Visit | null {
  const earlier = visits.filter((visit) => visit.createdAt < createdAt);
  return (
    earlier.findLast(({ warrantyUntil }) => warrantyUntil !== null && warrantyUntil >= day) ?? null
  );
}
