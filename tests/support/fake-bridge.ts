import type { BenchState } from '../../core/contract/bench-calls.ts';
import type { Bridge, EventName, Events } from '../../core/contract/contract.ts';
import type { GuardState } from '../../core/contract/guard-calls.ts';
import type { ErrorCode, Result, Trouble } from '../../core/errors.ts';
import { FIRST_GUARD, type GuardSettings } from '../../core/guard/guard-settings.ts';
import type { Run } from '../../core/job/job.ts';
import { windowOfSamples } from '../../core/trace/window-of-samples.ts';
import { batchOf, FAKE_BENCH, type FakeRun, fakeRun, play } from './fake-bench.ts';
import { type FakeDraw, idleDraw, wakingDraw } from './fake-draw.ts';
import { type FakeJob, fakeJob, lineOf, wholeOf } from './fake-jobs.ts';

/** What a picture of the window starts from. */
export interface FakeScene {
  readonly bench: BenchState;
  readonly jobs: FakeJob[];
  /** What the board draws once output is on. */
  readonly draw: FakeDraw;
  /** Seconds of a powered run that have been recorded already; 0 = output off. */
  readonly poweredS: number;
  readonly idleS: number;
  readonly alarms: readonly Trouble[];
  /** What reading the job runs into. */
  readonly trouble?: Trouble;
}

const ok = <T>(value: T): Promise<Result<T>> => Promise.resolve({ ok: true, value });
const no = (code: ErrorCode, what: string, todo: string): Promise<Result<never>> =>
  Promise.resolve({ ok: false, trouble: { code, what, where: 'pretended', todo } });

/** A bridge without Electron, for looking at the window in a browser. Not used by the product. */
export function createFakeBridge(scene: FakeScene): Bridge & { play: (seconds: number) => void } {
  let bench = scene.bench;
  const jobs = scene.jobs;
  const kept: FakeRun[] = [];
  let running: FakeRun | null = null;
  let sequence = 0;
  let jobsRead = 0;
  const listeners: { [E in EventName]?: ((fact: Events[E]) => void)[] } = {};
  const tell = <E extends EventName>(event: E, fact: Events[E]): void => {
    for (const listener of (listeners[event] ?? []) as ((fact: Events[E]) => void)[]) {
      listener(fact);
    }
  };
  const put = (part: Partial<BenchState>): BenchState => {
    bench = { ...bench, ...part };
    tell('benchChanged', bench);
    return bench;
  };
  const supply = (part: Partial<BenchState['supply']>) =>
    put({ supply: { ...bench.supply, ...part } });
  const jobOf = (id: string) => jobs.find((one) => one.job.id === id);
  const report = (fake: FakeRun) => fake.tracker.report();

  const step = (seconds: number, fresh: boolean): void => {
    if (running === null) return;
    const columns = play(running, seconds, bench.supply.limitA ?? 1);
    sequence += 1;
    tell('liveBatch', batchOf(running, sequence, fresh, columns));
    const last = columns.ticks.length - 1;
    const isOn = running.run.kind === 'powered';
    supply({
      volts: columns.volts[last]!,
      amps: columns.amps[last]!,
      outputOn: isOn,
      regulation: !isOn ? 'off' : columns.regulation[last] === 2 ? 'cc' : 'cv',
    });
    tell('stagesChanged', { runId: running.run.id, report: report(running) });
  };
  const begin = (kind: Run['kind'], seconds: number): void => {
    const draw = kind === 'powered' ? scene.draw : idleDraw;
    running = fakeRun({ jobId: bench.jobId, kind, draw, supply: bench.supply });
    kept.push(running);
    put({ run: running.run });
    step(seconds, true);
  };
  const end = (): void => {
    if (running === null) return;
    const words = running.tracker.finish();
    const run: Run = {
      ...running.run,
      endedAt: Date.now(),
      end: 'output-off',
      durationS: words.durationS,
      reach: words.reach,
      peakA: words.peakA,
      energyWh: words.energyWh,
      samples: words.samples,
    };
    kept[kept.length - 1] = { ...running, run };
    if (run.kind === 'powered') {
      jobOf(run.jobId ?? '')?.runs.push(run);
      tell('runEnded', { run, report: words });
    }
    running = null;
  };
  const found = (id: string) => kept.find((one) => one.run.id === id)!;
  const joined = (fake: FakeRun) => {
    const parts = fake.all;
    const size = parts.reduce((sum, part) => sum + part.ticks.length, 0);
    const all = {
      ticks: new Float64Array(size),
      volts: new Float64Array(size),
      amps: new Float64Array(size),
      regulation: new Uint8Array(size),
    };
    let at = 0;
    for (const part of parts) {
      all.ticks.set(part.ticks, at);
      all.volts.set(part.volts, at);
      all.amps.set(part.amps, at);
      all.regulation.set(part.regulation, at);
      at += part.ticks.length;
    }
    return all;
  };
  const changeItem = (jobId: string, itemId: string, part: Partial<FakeJob['items'][number]>) => {
    const job = jobOf(jobId)!;
    const at = job.items.findIndex((item) => item.id === itemId);
    job.items[at] = { ...job.items[at]!, ...part };
    tell('jobChanged', { jobId });
    return ok(job.items[at]!);
  };

  let guard: GuardSettings = FIRST_GUARD;
  const guardOf = (jobId: string | null): GuardState => ({
    jobId,
    isOwn: true,
    settings: guard,
    canSwitch: bench.supply.canSwitch,
    ownSet: null,
  });
  const start = (): void => {
    if (scene.poweredS > 0) begin('powered', scene.poweredS);
    else if (bench.supply.link === 'live') begin('idle', scene.idleS);
    for (const alarm of scene.alarms) tell('alarmRaised', alarm);
    if (scene.trouble !== undefined) tell('jobChanged', { jobId: bench.jobId ?? '' });
    if (scene.bench.supply.link === 'lost') supply(scene.bench.supply);
  };

  const known = {
    play: (seconds: number) => step(seconds, false),
    on: (event, listener) => {
      const all = (listeners[event] ?? []) as (typeof listener)[];
      all.push(listener);
      (listeners as Record<string, unknown>)[event] = all;
      // The window listens to alarms last: what it hears begins then.
      if (event === 'alarmRaised') setTimeout(start, 60);
      return () => all.splice(all.indexOf(listener), 1);
    },
    appFacts: () => ok({ version: '0', ledgerPath: '/invented', ledgerBytes: 0 }),
    ackLive: () => ok(null),
    exportRecord: () => ok({ path: '/invented/job-1.pdf', pages: 3 }),
    benchState: () => ok(bench),
    guardState: ({ jobId }) => ok(guardOf(jobId)),
    setGuardLimits: ({ jobId, ...limits }) => {
      guard = { ...guard, ...limits };
      return ok(guardOf(jobId));
    },
    setGuardPolicy: ({ jobId, policy }) => {
      guard = { ...guard, policy };
      return ok(guardOf(jobId));
    },
    dropGuard: ({ jobId }) => ok(guardOf(jobId)),
    listPorts: () =>
      ok({
        ports: [{ path: '/dev/ttyUSB0', about: 'USB serial adapter' }],
        why: null,
      }),
    connect: ({ role, address }) =>
      role === 'supply'
        ? ok(supply({ link: 'live', address }))
        : ok(put({ meter: { ...bench.meter, link: 'live', address } })),
    disconnect: ({ role }) =>
      role === 'supply'
        ? ok(supply({ link: 'none', address: null }))
        : ok(put({ meter: { ...bench.meter, link: 'none', address: null } })),
    openJobOnBench: ({ jobId }) => ok(put({ jobId })),
    setFeed: ({ feed }) => ok(put({ feed })),
    setVolts: ({ volts, confirmed }) =>
      volts > 19 && !confirmed
        ? no(
            'needs-confirmation',
            `${volts} V is above the 19 V that this board states`,
            'Confirm to set it.',
          )
        : ok(supply({ setV: volts })),
    setLimit: ({ amps }) => ok(supply({ limitA: amps })),
    outputOn: () => {
      const job = bench.jobId === null ? null : jobOf(bench.jobId);
      const gate = job?.items.find((item) => item.beforePower && item.state === 'open');
      if (gate !== undefined) {
        return no(
          'gate-closed',
          `"${gate.title}" is still open`,
          'Do it, or skip it with a reason.',
        );
      }
      end();
      begin('powered', 0.1);
      return ok(bench);
    },
    outputOff: () => {
      end();
      begin('idle', 0.1);
      return ok(bench);
    },
    mark: ({ mark, text }) => {
      const atTick = Math.round((running?.atS ?? 0) * 10_000);
      if (mark === 'wake-request') running?.tracker.wakeRequest(atTick);
      else running?.tracker.note(atTick, text);
      return ok({ mark, atS: running?.atS ?? 0, text });
    },
    meterFunction: ({ quantity }) => ok(put({ meter: { ...bench.meter, quantity } })),
    hands: () => ok(put({})),
    createJob: (fields) => {
      const made = fakeJob(jobs.length + 1, fields, Date.now());
      jobs.unshift(made);
      tell('jobChanged', { jobId: made.job.id });
      return ok(made.job);
    },
    changeJob: ({ id, fields }) => {
      const fake = jobOf(id)!;
      fake.job = { ...fake.job, ...(fields as Partial<typeof fake.job>) };
      tell('jobChanged', { jobId: id });
      return ok(fake.job);
    },
    setJobState: ({ id, state }) => {
      const fake = jobOf(id)!;
      fake.job = { ...fake.job, state };
      tell('jobChanged', { jobId: id });
      return ok(fake.job);
    },
    closeJob: ({ id, outcome }) => {
      const fake = jobOf(id)!;
      fake.job = { ...fake.job, state: 'closed', outcome: { ...outcome, closedAt: Date.now() } };
      tell('jobChanged', { jobId: id });
      return ok(fake.job);
    },
    listJobs: ({ search }) =>
      ok(
        jobs
          .map(lineOf)
          .filter((line) =>
            JSON.stringify(line).toLowerCase().includes(search.trim().toLowerCase()),
          ),
      ),
    readJob: ({ id }) => {
      const fake = jobOf(id);
      if (scene.trouble !== undefined && jobsRead++ > 0) {
        return Promise.resolve({ ok: false as const, trouble: scene.trouble });
      }
      return fake === undefined
        ? no('not-found', 'No such job', 'Choose another.')
        : ok(wholeOf(fake));
    },
    binJob: () => ok(null),
    restoreJob: ({ id }) => ok(jobOf(id)!.job),
    listBin: () => ok([]),
    emptyBin: () => ok(0),
    doItem: ({ jobId, itemId, note }) =>
      changeItem(jobId, itemId, { state: 'done', at: Date.now(), reason: note }),
    skipItem: ({ jobId, itemId, reason }) =>
      changeItem(jobId, itemId, { state: 'skipped', at: Date.now(), reason }),
    reopenItem: ({ jobId, itemId }) => changeItem(jobId, itemId, { state: 'open', at: null }),
    addReading: (fields) => {
      const reading = { ...fields, id: crypto.randomUUID(), takenAt: Date.now() };
      const job = jobOf(fields.jobId ?? '');
      job?.readings.push(reading);
      if (job !== undefined) {
        job.items = job.items.map((item) =>
          item.id === fields.itemId ? { ...item, state: 'done', at: Date.now() } : item,
        );
      }
      if (fields.jobId !== null) tell('jobChanged', { jobId: fields.jobId });
      return ok(reading);
    },
    readInitials: () => ok(''),
    readJobTemplate: () => ok({ version: null, newest: 0 }),
    listTemplates: () => ok([]),
    looseReadings: () => ok([]),
    giveReading: () => no('not-found', 'No such reading', 'Look again.'),
    addPart: ({ jobId, part }) => {
      const made = { ...part, id: crypto.randomUUID(), jobId, at: Date.now() };
      jobOf(jobId)?.parts.push(made);
      tell('jobChanged', { jobId });
      return ok(made);
    },
    changePart: () => no('not-found', 'No such part', 'Look again.'),
    listRuns: () => ok(kept.filter((one) => one.run.jobId === null).map((one) => one.run)),
    readRun: ({ id }) => ok({ run: found(id).run, report: report(found(id)) }),
    readWindow: ({ id, fromTick, toTick, columns }) =>
      ok(windowOfSamples(joined(found(id)), fromTick, toTick, columns)),
    readSamples: ({ id, fromTick }) =>
      fromTick > 0
        ? ok({
            ticks: new Float64Array(),
            volts: new Float64Array(),
            amps: new Float64Array(),
            regulation: new Uint8Array(),
          })
        : ok(joined(found(id))),
    giveRun: ({ id }) => ok(found(id).run),
    changeRun: ({ id, role }) => ok({ ...found(id).run, role }),
    addRunNote: ({ id }) => ok(report(found(id))),
    runsToCompare: () =>
      ok(
        kept
          .filter((one) => one.run.kind === 'powered')
          .map((one) => ({ run: one.run, jobNumber: 1, boardModel: 'Larkspur L-300 main board' })),
      ),
    recovered: () => ok([]),
  } satisfies Partial<Bridge> & { play: (seconds: number) => void };
  return new Proxy(known, {
    get: (calls, name: string) =>
      name in calls
        ? calls[name as keyof typeof calls]
        : () => no('not-found', `The fake bench has no ${name}`, 'Look at it in the real window.'),
  }) as unknown as Bridge & { play: (seconds: number) => void };
}

export const QUIET_SCENE: FakeScene = {
  bench: FAKE_BENCH,
  jobs: [],
  draw: wakingDraw(19),
  poweredS: 0,
  idleS: 12,
  alarms: [],
};
