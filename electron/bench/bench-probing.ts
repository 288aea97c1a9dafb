import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { ProbeState } from '../../core/contract/probing-calls.ts';
import { troubleOf } from '../../core/errors.ts';
import type { MeterReading } from '../../core/instruments/meter.ts';
import type { Quantity } from '../../core/job/job.ts';
import { isPowerless, type ProbeEvent, type TakenReading } from '../../core/probing/probe-event.ts';
import { createProbeWatch } from '../../core/probing/probe-watch.ts';
import { refusalWords } from '../../core/probing/refusal-words.ts';
import { keepTaken } from './keep-taken.ts';
import { createProbePoints } from './probe-points.ts';
import { type ProbingHandlers, probingHandlers } from './probing-handlers.ts';
import type { ProbingParts, ProbingSession } from './probing-parts.ts';
import { createVoltsCheck, type VoltsCheck } from './volts-check.ts';

/** Turns the meter's readings into stored readings while the technician's hands are full. */
export interface BenchProbing {
  readonly handlers: ProbingHandlers;
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

/** A touch that has not settled by now gets a word about it. */
const LONG_MS = 4000;
const STILL_MOVES =
  'It still moves: a capacitor charges, or the tip slips. Hold on, or take it as it is (Y).';

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
  let session: ProbingSession | null = null;
  let check: VoltsCheck | null = null;
  let seen: Quantity | null = null;
  let wasOn: boolean | null = null;
  let settlingSinceMs: number | null = null;
  let queue: Promise<void> = Promise.resolve();

  function change(part: Partial<ProbeState>): ProbeState {
    state = { ...state, ...part };
    parts.tell(state);
    return state;
  }

  function refuse(why: string): void {
    const phase = state.phase === 'finished' ? 'finished' : (session?.watch.phase ?? 'lift');
    change({ why, phase, refusals: state.refusals + 1 });
  }

  /** One thing after another: a reading is stored before the next touch is looked at. */
  function then(act: () => Promise<void>): Promise<void> {
    queue = queue.then(act).catch((thrown) => {
      const trouble = troubleOf(thrown, 'hands-free');
      refuse(`${trouble.what}. ${trouble.todo}`);
    });
    return queue;
  }

  function want(quantity: Quantity | null): void {
    if (session === null) return;
    session.wanted = quantity;
    session.watch.want(quantity);
  }

  async function toNext(): Promise<void> {
    if (session?.along !== 'list' || session.points === null) return;
    const { next, left } = session.points;
    want(next?.quantity ?? null);
    change({ next, left, phase: next === null ? 'finished' : session.watch.phase });
    if (next !== null) await putIn(next.quantity);
  }

  async function putIn(quantity: Quantity): Promise<void> {
    const { meter } = parts.bench();
    if (meter.link === 'live' && meter.quantity !== quantity) await parts.setFunction(quantity);
  }

  async function readItems(): Promise<void> {
    const { jobId = null, points = null } = session ?? {};
    if (jobId === null || points === null) return;
    points.refresh((await ledger.readJob({ id: jobId })).items);
  }

  /** Whether the point is dead, by the meter's own volts with the probe still on it. */
  async function isDead(quantity: Quantity): Promise<boolean> {
    check = createVoltsCheck(parts.setFunction, quantity);
    change({ phase: 'checking', why: null });
    try {
      return await check.isDead;
    } finally {
      check = null;
    }
  }

  function onTaken(reading: TakenReading, isAgain: boolean): void {
    // What it belongs to is settled at the touch: by the time it is stored the session may be over.
    const mine = session;
    const replaces = isAgain ? (state.taken[0] ?? null) : null;
    if (mine === null) return;
    then(async () => {
      if (isPowerless(reading.quantity) && !(await isDead(reading.quantity))) {
        if (session !== mine) return;
        mine.watch.unsay('volts-remain');
        refuse(refusalWords('volts-remain', null, reading.quantity));
        return;
      }
      const { along, jobId, points } = mine;
      const taken = await keepTaken(ledger, reading, {
        ...{ along, jobId, replaces, point: points?.next ?? null },
        ...{ run: parts.bench().run, nowMs: parts.wallMs() },
      });
      await readItems();
      const before = replaces === null ? state.taken : state.taken.slice(1);
      const kept = along === 'view' ? [taken] : [taken, ...before].slice(0, MOST_TAKEN);
      const phase = session?.watch.phase ?? 'lift';
      change({ taken: kept, takes: state.takes + 1, why: null, phase });
      await toNext();
    });
  }

  function hear(events: readonly ProbeEvent[]): void {
    for (const event of events) {
      if (event.kind === 'taken' || event.kind === 'replaced') {
        onTaken(event.reading, event.kind === 'replaced');
      } else if (event.kind === 'refused') {
        refuse(refusalWords(event.why, session?.wanted ?? null, seen));
      } else if (event.kind === 'settling') {
        change({ phase: 'settling', why: null });
      } else if (event.kind === 'armed') change({ phase: 'armed' });
    }
  }

  function stop(): ProbeState {
    session = null;
    check?.stop();
    const { taken, takes, refusals } = state;
    return change({ ...NOTHING, taken, takes, refusals });
  }

  return {
    push(reading, midMs) {
      seen = reading.quantity;
      if (check !== null) return check.see(reading);
      if (session === null || state.phase === 'finished') return;
      const { supply } = parts.bench();
      const outputOn = supply.link === 'live' ? supply.outputOn : null;
      const feedV = outputOn === true ? null : supply.volts;
      const { quantity, value, overload, decimals } = reading;
      const times = { tMs: midMs, outputOn, feedV };
      hear(session.watch.push({ quantity, value, overload, decimals, ...times }));
      if (session.watch.phase !== 'settling') settlingSinceMs = null;
      else settlingSinceMs ??= midMs;
      const isLong = settlingSinceMs !== null && midMs - settlingSinceMs > LONG_MS;
      if (isLong && state.why === null) change({ why: STILL_MOVES });
    },
    jobChanged(changed) {
      if (session?.along !== 'list' || changed !== session.jobId) return;
      then(async () => {
        const before = session?.points?.next?.itemId;
        await readItems();
        if (session?.points?.next?.itemId !== before) await toNext();
      });
    },
    benchChanged(bench) {
      const wentOff = wasOn === true && bench.supply.outputOn === false;
      wasOn = bench.supply.outputOn;
      if (session === null) return;
      if (bench.jobId !== session.jobId) {
        stop();
      } else if (bench.meter.link !== 'live') {
        if (state.why === METER_LOST) return;
        // What is touched meanwhile nobody sees: the lead must be seen in the air again.
        session.watch = createProbeWatch();
        session.watch.want(session.wanted);
        change({ phase: 'lift', why: METER_LOST });
      } else if (wentOff) {
        // The function that a dead board needs was refused while the output was on.
        then(toNext);
      }
    },
    get settled() {
      return queue;
    },
    handlers: probingHandlers(parts, {
      state: () => state,
      change,
      session: () => session,
      async begin(along, itemIds) {
        const { jobId } = parts.bench();
        const isList = along === 'list' && jobId !== null;
        const items = isList ? (await ledger.readJob({ id: jobId })).items : [];
        const points = isList ? createProbePoints(items, itemIds) : null;
        session = { along, jobId, points, watch: createProbeWatch(), wanted: null };
        const { takes, refusals } = state;
        change({ ...NOTHING, along, takes, refusals });
      },
      stop,
      async force() {
        const events = session?.watch.force() ?? [];
        hear(events);
        if (events.length === 0) change({ why: 'There is nothing to take: lift the probe first.' });
        // The check of the volts needs readings that are still to come: it is not waited for.
        const isPassive = seen !== null && isPowerless(seen);
        if (!isPassive) await queue;
      },
      aim(quantity) {
        want(quantity);
        return then(() => putIn(quantity));
      },
      then,
      toNext,
      readItems,
    }),
  };
}
