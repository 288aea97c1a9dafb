import type { Trouble } from '../../core/errors.ts';
import { troubleOf } from '../../core/errors.ts';
import type { SupplyReading } from '../../core/instruments/supply.ts';
import type { Feed, Run, RunEnd } from '../../core/job/job.ts';
import type { StageReport } from '../../core/stages/stage.ts';
import type { Sample } from '../../core/trace/sample.ts';
import type { RecorderCalls } from '../ledger/recorder-calls.ts';
import type { LiveFeed } from './bench-feed.ts';
import { beginRun, type RecordedRun } from './bench-run.ts';

/** What a new run is begun with, asked at the moment it begins. */
export interface RunFacts {
  readonly jobId: string | null;
  readonly feed: Feed;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly instrument: string;
  readonly pretend: boolean;
  readonly canSwitch: boolean;
  /** The hunt that current is put in for; null = a board is powered to wake. */
  readonly huntId: string | null;
}

export interface RecorderHooks {
  readonly recorder: RecorderCalls;
  readonly live: LiveFeed;
  facts(): RunFacts;
  wallMs(): number;
  runBegan(run: Run): void;
  runEnded(run: Run, report: StageReport): void;
  stagesMoved(runId: string, report: StageReport): void;
  trouble(trouble: Trouble): void;
}

/**
 * Turns the supply's readings into runs: powered from output on to output off, idle between. Current
 * that is put in for a hunt is one run of its own from the first press until the mode is left, so that
 * the presses lie beside each other.
 */
export interface BenchRecorder {
  readonly current: RecordedRun | null;
  push(reading: SupplyReading, midMs: number): void;
  /** Hands what was gathered to the ledger. */
  flush(): Promise<void>;
  /** Tells the window the stages when they have moved on. */
  tellStages(): void;
  saveReport(): Promise<void>;
  /** Ends what is being recorded and waits until the ledger has it. */
  stop(end: RunEnd): Promise<void>;
  /** How the next end of a powered run came about, when not by hand. */
  endsBy(end: RunEnd): void;
}

/** Samples before output-on that a powered run begins with. */
const PRE_ROLL_MS = 1000;
/** How long a powered run goes on after output-off, so that its end is seen. */
const TAIL_MS = 500;
/** Idle recording is cut into stretches so that the ring can let old ones go. */
const IDLE_STRETCH_MS = 5 * 60_000;
/** Pause before the ledger is asked again after it refused to begin a run. */
const BEGIN_AGAIN_MS = 2000;
const HELD_AT_MOST = 100_000;

interface Held {
  readonly reading: SupplyReading;
  readonly midMs: number;
}

/** Makes the recorder; it begins recording with the first reading it is given. */
export function createBenchRecorder(hooks: RecorderHooks): BenchRecorder {
  let current: RecordedRun | null = null;
  let kind: Run['kind'] | null = null;
  let begunAtMs = 0;
  let notBeforeMs = Number.NEGATIVE_INFINITY;
  let offSinceMs: number | null = null;
  let outputOn: boolean | null = null;
  let injectsFor: string | null = null;
  let plannedEnd: RunEnd = 'output-off';
  let held: Held[] = [];
  let preRoll: Held[] = [];
  let moved = false;
  let turn = 0;
  let queue: Promise<void> = Promise.resolve();

  const sampleOf = (run: RecordedRun, { reading, midMs }: Held): Sample => ({
    tick: run.tickAt(midMs),
    volts: reading.volts,
    amps: reading.amps,
    regulation: reading.regulation,
    outputOn: reading.outputOn,
  });

  async function close(run: RecordedRun, end: RunEnd): Promise<void> {
    try {
      const done = await run.end(hooks.wallMs(), end);
      hooks.runEnded(done.run, done.report);
    } catch (thrown) {
      hooks.trouble(troubleOf(thrown, 'recording'));
    }
  }

  /** Begins a run with what was held for it; null when the ledger refused. */
  async function open(nextKind: Run['kind'], mine: readonly Held[]): Promise<RecordedRun | null> {
    const { jobId, feed, setV, limitA, instrument, pretend } = hooks.facts();
    const huntId = nextKind === 'injection' ? injectsFor : null;
    const [first, newest] = [mine[0]!, mine.at(-1)!];
    try {
      // What good boards draw says nothing of a current that is put in.
      const judgedBy = huntId === null ? jobId : null;
      const settings = await hooks.recorder.settingsFor({ jobId: judgedBy, setV, limitA, feed });
      return await beginRun(
        hooks.recorder,
        {
          jobId: nextKind === 'idle' ? null : jobId,
          kind: nextKind,
          startedAt: Math.round(hooks.wallMs() - newest.midMs + first.midMs),
          utcOffsetMin: -new Date(hooks.wallMs()).getTimezoneOffset(),
          feed,
          setV,
          limitA,
          instrument,
          pretend,
          settings,
          huntId,
        },
        first.midMs,
      );
    } catch (thrown) {
      notBeforeMs = newest.midMs + BEGIN_AGAIN_MS;
      hooks.trouble(troubleOf(thrown, 'recording'));
      return null;
    }
  }

  function turnTo(nextKind: Run['kind'], first: Held): void {
    const old = current;
    const end = kind === 'idle' ? 'output-off' : plannedEnd;
    const mine = nextKind === 'idle' ? [] : [...preRoll];
    turn += 1;
    const myTurn = turn;
    current = null;
    kind = nextKind;
    begunAtMs = first.midMs;
    offSinceMs = null;
    plannedEnd = 'output-off';
    held = mine;
    queue = queue.then(async () => {
      if (old !== null) await close(old, end);
      const run = await open(nextKind, mine);
      if (run === null) {
        if (turn === myTurn) kind = null;
        return;
      }
      const samples = mine.map((one) => sampleOf(run, one));
      for (const sample of samples) run.push(sample);
      // While this one was being opened the bench may have moved on: then it is over already.
      if (turn !== myTurn) {
        await close(run, end);
        return;
      }
      current = run;
      moved = true;
      hooks.live.begin(run.run.id, samples);
      hooks.runBegan(run.run);
    });
  }

  function decideKind(one: Held): void {
    const { canSwitch, huntId } = hooks.facts();
    const powered = canSwitch ? outputOn === true : true;
    const live = huntId === null ? 'powered' : 'injection';
    const isOther = kind !== live || (kind === 'injection' && injectsFor !== huntId);
    const goesOn = kind === 'injection' && huntId === injectsFor;
    if (kind === null) {
      if (one.midMs < notBeforeMs) return;
      injectsFor = huntId;
      turnTo(powered ? live : 'idle', one);
    } else if (powered && isOther) {
      injectsFor = huntId;
      turnTo(live, one);
    } else if (kind !== 'idle' && !powered && !goesOn) {
      offSinceMs ??= one.midMs;
      if (one.midMs - offSinceMs >= TAIL_MS) turnTo('idle', one);
    } else if (kind === 'idle' && one.midMs - begunAtMs > IDLE_STRETCH_MS && current !== null) {
      turnTo('idle', one);
    } else {
      offSinceMs = null;
    }
  }

  return {
    get current() {
      return current;
    },
    push(reading, midMs) {
      outputOn = reading.outputOn ?? outputOn;
      const one: Held = { reading: { ...reading, outputOn }, midMs };
      decideKind(one);
      if (current === null) {
        if (held.length < HELD_AT_MOST) held.push(one);
      } else {
        const sample = sampleOf(current, one);
        current.push(sample);
        hooks.live.push(sample);
        moved = true;
      }
      preRoll.push(one);
      while (preRoll[0] && preRoll[0].midMs < midMs - PRE_ROLL_MS) preRoll.shift();
    },
    async flush() {
      await current?.flush();
    },
    tellStages() {
      if (current === null || !moved) return;
      moved = false;
      hooks.stagesMoved(current.run.id, current.tracker.report());
    },
    async saveReport() {
      if (current !== null && current.run.kind !== 'idle') await current.saveReport();
    },
    async stop(end) {
      const old = current;
      turn += 1;
      current = null;
      kind = null;
      held = [];
      preRoll = [];
      queue = queue.then(async () => {
        if (old !== null) await close(old, end);
      });
      await queue;
    },
    endsBy(end) {
      plannedEnd = end;
    },
  };
}
