import { createPretendBench, type PretendBench } from '../../core/bench-model/pretend-bench.ts';
import type { BenchState, benchCalls } from '../../core/contract/bench-calls.ts';
import type { Events, Handlers } from '../../core/contract/contract.ts';
import type { guardCalls } from '../../core/contract/guard-calls.ts';
import type { injectionCalls } from '../../core/contract/injection-calls.ts';
import { type Trouble, troubleOf } from '../../core/errors.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { Feed, Job } from '../../core/job/job.ts';
import type { Clock } from '../../core/scpi/session-clock.ts';
import type { RecorderCalls } from '../ledger/recorder-calls.ts';
import { createLiveFeed } from './bench-feed.ts';
import { benchHandlers } from './bench-handlers.ts';
import { createBenchInjection } from './bench-injection.ts';
import { openLink } from './bench-links.ts';
import { createBenchMeter } from './bench-meter.ts';
import { createBenchRecorder } from './bench-recorder.ts';
import { createBenchSafety, type SafetyOptions } from './bench-safety.ts';
import { createBenchSupply } from './bench-supply.ts';
import { checkJobGates } from './check-job-gates.ts';
import type { HuntLedger } from './injection-parts.ts';
import type { InstrumentLines } from './instrument-lines.ts';
import { keepAddresses, readAddresses } from './remembered-addresses.ts';

const SUPPLY_POLL_MS = 50;
const METER_POLL_MS = 200;
const BEAT_MS = 50;
/** Every how many beats: bench state to the window, samples to the ledger, report kept, ring trimmed. */
const STATE_BEATS = 2;
const LEDGER_BEATS = 2;
const STAGE_BEATS = 5;
const REPORT_BEATS = 100;
const TRIM_BEATS = 1200;
/** What is recorded without a job is kept this long. */
const LOOSE_MS = 30 * 60_000;

export interface BenchOptions extends SafetyOptions {
  readonly clock: Clock;
  wallMs(): number;
  readonly recorder: RecorderCalls;
  readonly hunts: HuntLedger;
  readJob(id: string): Promise<Job>;
  tell<E extends keyof Events>(event: E, fact: Events[E]): void;
  /** Where the chosen instruments are remembered. */
  readonly addressFile: string;
  readonly seed: number;
  readonly lines: InstrumentLines;
  /** Who else hears each reading, after guard and recorder. */
  meterReading?(reading: MeterReading, midMs: number): void;
  supplyReading?(reading: SupplyReading, midMs: number): void;
}

/** The bench side of the app: instruments, what is being recorded, and the calls that act on it. */
export interface Bench {
  readonly handlers: Handlers<typeof benchCalls & typeof guardCalls & typeof injectionCalls>;
  /** Whether the output is on, is about to be, or cannot tell. */
  readonly isOutputOn: boolean;
  readonly state: BenchState;
  acknowledge(sequence: number): void;
  /** The window lost the keyboard or is gone: whatever was held is let go. */
  letGo(why: string): void;
  /** The window was loaded anew. */
  windowOpened(): void;
  /** Connects what was chosen last; troubles go to the window. */
  start(): Promise<void>;
  outputOff(): Promise<void>;
  /** Output off, recording ended, links closed. */
  close(): Promise<void>;
}

const NO_FEED: Feed = {
  point: 'charger-input',
  cells: false,
  screen: false,
  drive: false,
  note: '',
};

/** Puts the bench together. Nothing is opened before `start`. */
export function createBench(options: BenchOptions): Bench {
  const { clock, tell, recorder: ledger } = options;
  let feed = NO_FEED;
  let job: Job | null = null;
  let dirty = true;
  let beats = 0;
  let lastAlarm = '';
  let pretendBench: PretendBench | null = null;
  const pretend = () => {
    pretendBench ??= createPretendBench({
      seed: options.seed,
      nowS: () => clock.nowMs() / 1000,
    });
    return pretendBench;
  };
  const changed = () => {
    dirty = true;
  };
  const alarm = (trouble: Trouble) => {
    const key = `${trouble.code} ${trouble.where}`;
    if (key === lastAlarm) return;
    lastAlarm = key;
    tell('alarmRaised', trouble);
  };

  const live = createLiveFeed((batch) => tell('liveBatch', batch));
  const recorder = createBenchRecorder({
    recorder: ledger,
    live,
    facts: () => ({
      jobId: job?.id ?? null,
      feed,
      setV: supply.state.setV,
      limitA: supply.state.limitA,
      instrument: supply.state.identity,
      pretend: supply.state.address?.by === 'pretend',
      canSwitch: supply.state.canSwitch,
      huntId: injection.huntId,
    }),
    wallMs: options.wallMs,
    runBegan: changed,
    runEnded: (run, report) => {
      if (run.kind === 'powered') tell('runEnded', { run, report });
      changed();
    },
    stagesMoved: (runId, report) => {
      if (recorder.current?.run.kind === 'powered') safety.seeStages(runId, report.stages);
      tell('stagesChanged', { runId, report });
    },
    trouble: alarm,
  });
  const checkGates = () => checkJobGates(ledger, job);
  const injection = createBenchInjection({
    clock,
    ledger: options.hunts,
    supply: () => supply,
    jobId: () => job?.id ?? null,
    feed: () => feed,
    checkGates,
    beforeOutputOn: () => safety.beforeOutputOn(),
    tell: (state) => tell('injectionChanged', state),
    alarm,
  });
  const safety = createBenchSafety(options, {
    clock,
    supply: () => supply,
    recorder: () => recorder,
    jobId: () => job?.id ?? null,
    tell,
    changed,
    injectionGuard: () => injection.guard,
    tripped: (text) => injection.tripped(text),
  });
  const supply = createBenchSupply({
    clock,
    intervalMs: SUPPLY_POLL_MS,
    lines: options.lines,
    open: (address) => openLink('supply', address, pretend),
    reading: (reading, midMs) => {
      safety.seeReading(reading, midMs);
      injection.seeSupply(reading);
      recorder.push(reading, midMs);
      options.supplyReading?.(reading, midMs);
    },
    changed,
    setpointsMoved: (setV, limitA) => {
      const run = recorder.current;
      run?.tracker.changeFeed(run.tickAt(clock.nowMs()), { setV, limitA });
    },
    lost: alarm,
    back: () => {
      lastAlarm = '';
    },
  });
  const meter = createBenchMeter({
    clock,
    intervalMs: METER_POLL_MS,
    lines: options.lines,
    open: (address) => openLink('meter', address, pretend),
    reading: (reading, midMs) => {
      injection.seeMeter(reading);
      options.meterReading?.(reading, midMs);
    },
    changed,
    lost: alarm,
  });

  const isPretend = () =>
    supply.state.address?.by === 'pretend' || meter.state.address?.by === 'pretend';
  const state = (): BenchState => ({
    supply: supply.state,
    meter: meter.state,
    pretend: isPretend() ? { ...pretend().state(), shelf: pretend().shelf } : null,
    jobId: job?.id ?? null,
    feed,
    run: recorder.current?.run ?? null,
    watcherReady: safety.isWatcherReady,
  });

  function beat(): void {
    beats += 1;
    injection.beat();
    safety.beat();
    live.flush();
    if (beats % STATE_BEATS === 0 && dirty) {
      dirty = false;
      tell('benchChanged', state());
    }
    if (beats % STAGE_BEATS === 0) recorder.tellStages();
    if (beats % LEDGER_BEATS === 0) {
      recorder.flush().catch((thrown) => alarm(troubleOf(thrown, 'recording')));
    }
    if (beats % REPORT_BEATS === 0) {
      recorder.saveReport().catch((thrown) => alarm(troubleOf(thrown, 'recording')));
    }
    if (beats % TRIM_BEATS === 0) {
      ledger
        .trimLoose({ olderThan: options.wallMs() - LOOSE_MS })
        .catch((thrown) => alarm(troubleOf(thrown, 'recording')));
    }
  }
  let timer: NodeJS.Timeout | null = null;
  const untoldFiles = [...options.lines.book.troubles];

  /** What cannot be switched off now is left to the watcher, and the rest is closed all the same. */
  async function offAtClose(): Promise<boolean> {
    if (!safety.mayBeOn) return true;
    try {
      await supply.driver().outputOff();
      return true;
    } catch {
      return false;
    }
  }

  return {
    handlers: {
      ...safety.handlers,
      ...injection.handlers,
      ...benchHandlers({
        injection,
        checkGates,
        beforeOutputOn: safety.beforeOutputOn,
        clock,
        supply,
        meter,
        recorder,
        ledger,
        pretend: () => (isPretend() ? pretend() : null),
        state,
        changed,
        job: () => job,
        openJob: async (id) => {
          job = id === null ? null : await options.readJob(id);
        },
        setFeed: (next) => {
          feed = next;
        },
        remember: () =>
          keepAddresses(options.addressFile, {
            supply: supply.state.address,
            meter: meter.state.address,
          }),
      }),
    },
    get state() {
      return state();
    },
    get isOutputOn() {
      return safety.mayBeOn;
    },
    letGo: injection.letGo,
    acknowledge: live.acknowledge,
    windowOpened() {
      live.windowOpened();
      safety.windowOpened();
      // Before the page is there nobody would hear of them.
      for (const trouble of untoldFiles.splice(0)) tell('alarmRaised', trouble);
    },
    async start() {
      // Before any instrument: an old watcher that is still at it learns that somebody is back.
      await safety.start();
      timer = setInterval(beat, BEAT_MS);
      const chosen = readAddresses(options.addressFile);
      await Promise.all([
        chosen.supply && supply.connect(chosen.supply).catch((t) => alarm(troubleOf(t, 'supply'))),
        chosen.meter && meter.connect(chosen.meter).catch((t) => alarm(troubleOf(t, 'meter'))),
      ]);
    },
    async outputOff() {
      injection.letGo('switched off by hand');
      await supply.driver().outputOff();
    },
    async close() {
      await injection.leave().catch((thrown) => alarm(troubleOf(thrown, 'injecting')));
      const isOff = await offAtClose();
      // Links first: a reading after the end of recording would begin it again.
      await Promise.all([supply.disconnect(), meter.disconnect()]);
      await recorder.stop('app-closed');
      if (timer) clearInterval(timer);
      await safety.close(isOff);
    },
  };
}
