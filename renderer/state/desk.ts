import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Bridge } from '../../core/contract/contract.ts';
import type { Trouble } from '../../core/errors.ts';
import type { JobWhole, Run } from '../../core/job/job.ts';
import type { SearchPlace } from '../../core/search/search-piece.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import { createLiveRuns, type LiveRuns } from '../live/live-runs.ts';
import { readSamples } from '../live/read-samples.ts';
import type { RunTrace } from '../live/run-trace.ts';
import { share } from './share.ts';
import { createStore, type Store } from './store.ts';

export type View =
  | 'sheet'
  | 'jobs'
  | 'replay'
  | 'instruments'
  | 'compare'
  | 'rails'
  | 'boards'
  | 'donors'
  | 'checklists';

/** What lies on the right page of the job book. */
export type BookPane = 'job' | 'loose' | 'bin' | 'customers' | 'figures' | 'causes' | 'copies';

/** A run that has just ended and still lies on the sheet. */
export interface FinishedRun {
  readonly run: Run;
  readonly report: StageReport;
  readonly trace: RunTrace | null;
}

/** What the window knows. Samples are not here: they live in `LiveRuns`. */
export interface DeskState {
  readonly view: View;
  readonly bench: BenchState | null;
  /** The job on the bench, whole. */
  readonly job: JobWhole | null;
  /** Grows whenever any job changed, so that lists read again. */
  readonly jobsVersion: number;
  readonly live: { readonly runId: string; readonly report: StageReport } | null;
  readonly trace: RunTrace | null;
  readonly finished: FinishedRun | null;
  /** Newest first; each stays until a person has seen it. */
  readonly alarms: readonly Trouble[];
  /** What the last thing that was asked for ran into. */
  readonly trouble: Trouble | null;
  /** What a screen reader is told next. */
  readonly said: string;
  readonly openJobId: string | null;
  /** Where on the open job's page to go once it is drawn; null = nowhere. */
  readonly openPlace: { readonly place: SearchPlace; readonly refId: string } | null;
  readonly bookPane: BookPane;
  readonly replayRunId: string | null;
  /** Runs laid over one another; the first is what the others are held against. */
  readonly compareRunIds: readonly string[];
}

export interface Desk {
  readonly bridge: Bridge;
  readonly store: Store<DeskState>;
  readonly runs: LiveRuns;
  /** Listens to main until the returned function is called. */
  readonly start: () => () => void;
}

const EMPTY: DeskState = {
  view: 'sheet',
  bench: null,
  job: null,
  jobsVersion: 0,
  live: null,
  trace: null,
  finished: null,
  alarms: [],
  trouble: null,
  said: '',
  openJobId: null,
  openPlace: null,
  bookPane: 'job',
  replayRunId: null,
  compareRunIds: [],
};

const MOST_ALARMS = 5;

/** Joins the bridge to the window's state. Main's facts come in here and nowhere else. */
export function createDesk(bridge: Bridge): Desk {
  const store = createStore(EMPTY);
  const runs = createLiveRuns(async (runId, beforeTick, use) => {
    await readSamples(bridge, { runId, fromTick: 0, toTick: beforeTick }, (piece) => {
      use(piece);
      return true;
    });
  });

  const readJob = async (jobId: string): Promise<void> => {
    const answer = await bridge.readJob({ id: jobId });
    if (store.get().bench?.jobId !== jobId) return;
    if (answer.ok) store.change({ job: answer.value });
    else store.change({ trouble: answer.trouble });
  };

  const takeBench = (told: BenchState): void => {
    const before = store.get();
    const bench = share(before.bench, told);
    const isPowered = bench.run?.kind === 'powered' && bench.run.endedAt === null;
    const isNewRun = isPowered && bench.run?.id !== before.finished?.run.id;
    store.change({ bench, finished: isNewRun ? null : before.finished });
    if (bench.jobId === null) store.change({ job: null });
    else if (bench.jobId !== before.job?.job.id) void readJob(bench.jobId);
  };

  const start = (): (() => void) => {
    const stops = [
      bridge.on('benchChanged', takeBench),
      bridge.on('liveBatch', (batch) => {
        runs.append(batch);
        store.change({ trace: runs.current() });
        void bridge.ackLive({ sequence: batch.sequence });
      }),
      bridge.on('stagesChanged', (live) => store.change({ live: share(store.get().live, live) })),
      bridge.on('runEnded', ({ run, report }) => {
        if (run.kind !== 'powered') return;
        store.change({ finished: { run, report, trace: runs.byId(run.id) } });
      }),
      bridge.on('jobChanged', ({ jobId }) => {
        store.change({ jobsVersion: store.get().jobsVersion + 1 });
        if (store.get().bench?.jobId === jobId) void readJob(jobId);
      }),
      bridge.on('alarmRaised', (trouble) =>
        store.change({ alarms: [trouble, ...store.get().alarms].slice(0, MOST_ALARMS) }),
      ),
    ];
    void bridge.benchState({}).then((answer) => {
      if (!answer.ok) store.change({ trouble: answer.trouble });
      else if (store.get().bench === null) takeBench(answer.value);
    });
    return () => {
      for (const stop of stops) stop();
    };
  };

  return { bridge, store, runs, start };
}
