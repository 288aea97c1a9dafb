import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Run } from '../../core/job/job.ts';
import { FAKE_BENCH } from './fake-bench.ts';
import { CHARGER_FEED } from './ledger-samples.ts';

/** A bench with its instruments on and the output off; say only what a test is about. */
export function benchState(
  part: {
    supply?: Partial<BenchState['supply']>;
    meter?: Partial<BenchState['meter']>;
    jobId?: string | null;
    run?: Run | null;
  } = {},
): BenchState {
  return {
    ...FAKE_BENCH,
    jobId: part.jobId ?? null,
    run: part.run ?? null,
    supply: { ...FAKE_BENCH.supply, ...part.supply },
    meter: { ...FAKE_BENCH.meter, ...part.meter },
  };
}

/** A powered run that goes on. */
export function liveRun(part: Partial<Run> = {}): Run {
  return {
    id: '01890000-0000-7000-8000-000000000001',
    jobId: null,
    kind: 'powered',
    startedAt: 0,
    utcOffsetMin: 0,
    endedAt: null,
    end: null,
    feed: CHARGER_FEED,
    setV: 19,
    limitA: 1,
    instrument: 'invented',
    pretend: true,
    samples: 0,
    durationS: 0,
    reach: null,
    peakA: null,
    energyWh: null,
    role: null,
    ...part,
  };
}
