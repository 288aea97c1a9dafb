import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { ProbeState } from '../../core/contract/probing-calls.ts';
import type { Quantity } from '../../core/job/job.ts';
import type { ProbeWatch } from '../../core/probing/probe-watch.ts';
import type { ProbePoints } from './probe-points.ts';

/** What hands-free measuring needs of the app around it. */
export interface ProbingParts {
  bench(): BenchState;
  setFunction(quantity: Quantity): Promise<unknown>;
  readonly ledger: Pick<
    Handlers<typeof jobCalls>,
    'readJob' | 'addReading' | 'giveReading' | 'forgetReading'
  >;
  tell(state: ProbeState): void;
  wallMs(): number;
}

/** One stretch of measuring hands-free, from start to stop. */
export interface ProbingSession {
  readonly along: 'list' | 'free' | 'view';
  readonly jobId: string | null;
  readonly points: ProbePoints | null;
  watch: ProbeWatch;
  wanted: Quantity | null;
}
