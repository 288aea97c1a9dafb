import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Handlers } from '../../core/contract/contract.ts';
import type { jobCalls } from '../../core/contract/job-calls.ts';
import type { ProbeState, ProbeTaken, probingCalls } from '../../core/contract/probing-calls.ts';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import type { JobWhole, Quantity } from '../../core/job/job.ts';
import { isPowerless, type ProbeEvent, type TakenReading } from '../../core/probing/probe-event.ts';
import { createProbeWatch } from '../../core/probing/probe-watch.ts';
import { refusalWords } from '../../core/probing/refusal-words.ts';
import { shownDecimals } from '../../core/units/shown-decimals.ts';
import { createProbePoints, type ProbePoints } from './probe-points.ts';
import { createVoltsCheck, type VoltsCheck } from './volts-check.ts';

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

/** Turns the meter's readings into stored readings while the technician's hands are full. */
export interface BenchProbing {
  readonly handlers: Omit<Handlers<typeof probingCalls>, 'holdOutput'>;
  push(reading: MeterReading, midMs: number): void;
  /** A job changed in the ledger, by whatever hand. */
  jobChanged(jobId: string): void;
  /** The bench as it is now: another job, a lost meter. */
  benchChanged(bench: BenchState): void;
  /** Resolves when everything begun has been stored. */
  readonly settled: Promise<void>;
}

const MOST_TAKEN = 200;
const METER_LOST = 'The meter was lost. Look at its cable; measuring goes on when it is back.';

const NOTHING: ProbeState = {
  along: 'off',
  phase: 'lift',
  why: null,
  next: null,
  left: 0,
  taken: [],
  takes: 0,
  refusals: 0,
};

/** Makes it, off. */
export function createBenchProbing(parts: ProbingParts): BenchProbing {
  const { ledger } = parts;
  let state = NOTHING;
  let watch = createProbeWatch();
  let points: ProbePoints | null = null;
  let jobId: string | null = null;
  let check: VoltsCheck | null = null;
  let seen: Quantity | null = null;
  let wasOn: boolean | null = null;
  let queue: Promise<void> = Promise.resolve();

  function change(part: Partial<ProbeState>): ProbeState {
    state = { ...state, ...part };
    parts.tell(state);
    return state;
  }

  /** One thing after another: a reading is stored before the next touch is looked at. */
  function then(act: () => Promise<void>): Promise<void> {
    queue = queue.then(act).catch((thrown) => {
      const trouble = troubleOf(thrown, 'hands-free');
      const why = `${trouble.what}. ${trouble.todo}`;
      const phase = state.phase === 'finished' ? 'finished' : watch.phase;
      change({ why, phase, refusals: state.refusals + 1 });
    });
    return queue;
  }

  async function toNext(): Promise<void> {
    if (points === null || state.along !== 'list') return;
    const { next, left } = points;
    watch.want(next?.quantity ?? null);
    change({ next, left, phase: next === null ? 'finished' : watch.phase });
    const { meter } = parts.bench();
    if (next === null || meter.link !== 'live' || meter.quantity === next.quantity) return;
    await parts.setFunction(next.quantity);
  }

  async function readItems(): Promise<JobWhole | null> {
    if (jobId === null) return null;
    const whole = await ledger.readJob({ id: jobId });
    points?.refresh(whole.items);
    return whole;
  }

  async function store(reading: TakenReading, replaces: ProbeTaken | null): Promise<void> {
    const bench = parts.bench();
    const point = points?.next ?? null;
    const itemId = replaces === null ? (point?.itemId ?? null) : replaces.itemId;
    const { quantity, value, overload } = reading;
    const decimals = shownDecimals(quantity, reading.decimals, value);
    if (state.along === 'view') {
      const told: ProbeTaken = {
        ...{ readingId: null, itemId: null, title: '', place: '', takenAt: parts.wallMs() },
        ...{ quantity, value: overload ? null : value, overload, decimals },
        replaced: replaces !== null,
      };
      change({ taken: [told], takes: state.takes + 1, why: null, phase: watch.phase });
      return;
    }
    const stored = await ledger.addReading({
      jobId,
      itemId,
      runId: bench.run !== null && bench.run.endedAt === null ? bench.run.id : null,
      quantity,
      value: overload ? null : value,
      overload,
      decimals: overload ? null : decimals,
      place: replaces?.place ?? point?.place ?? '',
      expectedLow: null,
      expectedHigh: null,
      source: 'meter',
    });
    // The old one goes only once the new one is kept.
    if (replaces?.readingId != null) await ledger.forgetReading({ readingId: replaces.readingId });
    const taken: ProbeTaken = {
      readingId: stored.id,
      itemId,
      title: replaces?.title ?? point?.title ?? '',
      place: stored.place,
      quantity,
      value: stored.value,
      overload,
      decimals,
      takenAt: stored.takenAt,
      replaced: replaces !== null,
    };
    const before = replaces === null ? state.taken : state.taken.slice(1);
    await readItems();
    change({
      taken: [taken, ...before].slice(0, MOST_TAKEN),
      takes: state.takes + 1,
      why: null,
      phase: watch.phase,
    });
    await toNext();
  }

  function onTaken(reading: TakenReading, replaces: boolean): void {
    const old = replaces ? (state.taken[0] ?? null) : null;
    then(async () => {
      if (isPowerless(reading.quantity)) {
        check = createVoltsCheck(parts.setFunction, reading.quantity);
        change({ phase: 'checking', why: null });
        try {
          const isDead = await check.isDead;
          if (!isDead) {
            watch.unsay('volts-remain');
            const why = refusalWords('volts-remain', null, reading.quantity);
            change({ phase: watch.phase, why, refusals: state.refusals + 1 });
            return;
          }
        } finally {
          check = null;
        }
      }
      await store(reading, old);
    });
  }

  function hear(events: readonly ProbeEvent[]): void {
    for (const event of events) {
      switch (event.kind) {
        case 'taken':
        case 'replaced':
          onTaken(event.reading, event.kind === 'replaced');
          break;
        case 'refused': {
          const why = refusalWords(event.why, state.next?.quantity ?? null, seen);
          change({ phase: watch.phase, why, refusals: state.refusals + 1 });
          break;
        }
        case 'armed':
          change({ phase: watch.phase });
          break;
        case 'settling':
          change({ phase: watch.phase, why: null });
          break;
        case 'lifted':
          break;
      }
    }
  }

  function stop(): ProbeState {
    points = null;
    check?.stop();
    const { taken, takes, refusals } = state;
    return change({ ...NOTHING, taken, takes, refusals });
  }

  function mustBeOn(): void {
    if (state.along !== 'off') return;
    throw new WakelineError({
      code: 'not-connected',
      what: 'Hands-free measuring is off',
      where: 'hands-free',
      todo: 'Start it first.',
    });
  }

  return {
    push(reading, midMs) {
      seen = reading.quantity;
      if (check !== null) {
        check.see(reading);
        return;
      }
      if (state.along === 'off' || state.phase === 'finished') return;
      const { supply } = parts.bench();
      const isOn = supply.link === 'live' ? supply.outputOn : null;
      const { quantity, value, overload, decimals } = reading;
      hear(
        watch.push({
          quantity,
          value,
          overload,
          decimals,
          tMs: midMs,
          outputOn: isOn,
          feedV: isOn === true ? null : supply.volts,
        }),
      );
    },
    jobChanged(changed) {
      if (state.along !== 'list' || changed !== jobId) return;
      then(async () => {
        const before = points?.next?.itemId;
        await readItems();
        if (points?.next?.itemId !== before) await toNext();
      });
    },
    benchChanged(bench) {
      const went = wasOn === true && bench.supply.outputOn === false;
      wasOn = bench.supply.outputOn;
      if (state.along === 'off') return;
      if (bench.jobId !== jobId) {
        stop();
        return;
      }
      if (bench.meter.link !== 'live') {
        // What is touched meanwhile nobody sees: the lead must be seen in the air again.
        if (state.phase === 'lift' && state.why === METER_LOST) return;
        watch = createProbeWatch();
        watch.want(state.next?.quantity ?? null);
        change({ phase: 'lift', why: METER_LOST });
        return;
      }
      // The function that a dead board needs was refused while the output was on.
      if (went) then(toNext);
    },
    get settled() {
      return queue;
    },
    handlers: {
      probeState: () => state,
      startProbing: async ({ along, itemIds, quantity }) => {
        const bench = parts.bench();
        if (bench.meter.link !== 'live') {
          throw new WakelineError({
            code: 'not-connected',
            what: 'No meter is connected, so there is nothing to take readings from',
            where: 'hands-free',
            todo: 'Connect one in the instruments view.',
          });
        }
        jobId = bench.jobId;
        if (along === 'list' && jobId === null) {
          throw new WakelineError({
            code: 'not-found',
            what: 'There is no job on the bench, so there is no list to go along',
            where: 'hands-free',
            todo: 'Open a job, or measure free and name the readings afterwards.',
          });
        }
        watch = createProbeWatch();
        const whole = await readItems();
        points = along === 'list' ? createProbePoints(whole?.items ?? [], itemIds) : null;
        const { takes, refusals } = state;
        change({ ...NOTHING, along, takes, refusals });
        if (quantity != null) {
          watch.want(quantity);
          await then(async () => {
            if (parts.bench().meter.quantity !== quantity) await parts.setFunction(quantity);
          });
        }
        await then(toNext);
        return state;
      },
      stopProbing: () => stop(),
      forceProbe: async () => {
        mustBeOn();
        const events = watch.force();
        hear(events);
        if (events.length === 0) change({ why: 'The meter shows nothing to take.' });
        // The check of the volts takes readings of its own: it is not waited for.
        if (check === null && state.phase !== 'checking') await queue;
        return state;
      },
      undoProbe: async () => {
        await then(async () => {
          const last = state.taken[0];
          if (last === undefined || last.readingId === null) {
            change({ why: 'There is no reading here to take back.' });
            return;
          }
          await ledger.forgetReading({ readingId: last.readingId });
          change({ taken: state.taken.slice(1), why: null });
          await readItems();
          if (last.itemId !== null) points?.backTo(last.itemId);
          await toNext();
        });
        return state;
      },
      skipProbe: async () => {
        mustBeOn();
        await then(async () => {
          points?.skip();
          await toNext();
        });
        return state;
      },
      nameProbe: async ({ readingId, itemId, place }) => {
        const to = { readingId, jobId, itemId, place };
        const { title } = state.taken.find((one) => one.readingId === readingId) ?? { title: '' };
        const named = await ledger.giveReading(to);
        await readItems();
        return change({
          taken: state.taken.map((one) =>
            one.readingId === readingId
              ? { ...one, itemId: named.itemId, place: named.place, title }
              : one,
          ),
          why: null,
        });
      },
    },
  };
}
