import { FAKE_BENCH, FAKE_SUPPLY } from './fake-bench.ts';
import { type FakeScene, QUIET_SCENE } from './fake-bridge.ts';
import { limitedDraw, stalledDraw, wakingDraw } from './fake-draw.ts';
import { type FakeJob, fakeJob } from './fake-jobs.ts';

const AT = Date.UTC(2031, 4, 14, 8, 20);

function jobs(): FakeJob[] {
  const first = fakeJob(14, {}, AT);
  const wet = fakeJob(
    13,
    {
      boardModel: 'Teasel T-9 handset',
      serialNumber: 'T9-22071',
      symptom: 'Dropped in the sink, dead since',
      liquid: 'yes',
      template: 'liquid',
    },
    AT - 86_400_000,
  );
  const closed = fakeJob(
    12,
    { boardModel: null, serialNumber: '', symptom: 'Controller from the mill, outputs dead' },
    AT - 4 * 86_400_000,
  );
  closed.job = {
    ...closed.job,
    state: 'closed',
    outcome: {
      verdict: 'wakes',
      cause: 'Input fuse open after a shorted clamp',
      provedBy: '24 V back at the rail, soaked 4 h',
      misledBy: '',
      closedAt: AT,
    },
  };
  return [first, wet, closed];
}

/** Items before power done, as after the first half hour of a job. */
function readied(fake: FakeJob): FakeJob {
  fake.items = fake.items.map((item, i) =>
    item.beforePower || i < 3
      ? { ...item, state: i === 2 ? 'skipped' : 'done', at: AT, reason: i === 2 ? 'no cells' : '' }
      : item,
  );
  return fake;
}

function withJob(ready: boolean): Pick<FakeScene, 'bench' | 'jobs'> {
  const all = jobs();
  const first = all[0]!;
  if (ready) readied(first);
  return { jobs: all, bench: { ...FAKE_BENCH, jobId: first.job.id } };
}

const lost = {
  code: 'port-lost' as const,
  what: 'The supply stopped answering',
  where: '/dev/ttyUSB0, 115200 baud',
  todo: 'Check the cable and its power; the port is tried again every second.',
};

export const scenes: Readonly<Record<string, () => FakeScene>> = {
  empty: () => ({
    ...QUIET_SCENE,
    bench: {
      ...FAKE_BENCH,
      pretend: null,
      supply: {
        ...FAKE_SUPPLY,
        link: 'none',
        address: null,
        outputOn: null,
        setV: null,
        limitA: null,
        volts: null,
        amps: null,
        regulation: null,
      },
      meter: { ...FAKE_BENCH.meter, link: 'none', address: null, value: null },
    },
  }),
  nojob: () => ({ ...QUIET_SCENE, jobs: jobs() }),
  gated: () => ({ ...QUIET_SCENE, ...withJob(false) }),
  waiting: () => ({ ...QUIET_SCENE, ...withJob(true) }),
  live: () => ({ ...QUIET_SCENE, ...withJob(true), draw: wakingDraw(19), poweredS: 22 }),
  stalled: () => ({ ...QUIET_SCENE, ...withJob(true), draw: stalledDraw(19), poweredS: 26 }),
  limited: () => ({ ...QUIET_SCENE, ...withJob(true), draw: limitedDraw(19, 1), poweredS: 12 }),
  lost: () => {
    const scene = withJob(true);
    return {
      ...QUIET_SCENE,
      ...scene,
      bench: {
        ...scene.bench,
        supply: {
          ...FAKE_SUPPLY,
          link: 'lost',
          trouble: lost,
          volts: null,
          amps: null,
          regulation: null,
          outputOn: null,
        },
      },
      poweredS: 20,
      alarms: [lost],
    };
  },
  error: () => {
    const full = {
      code: 'disk-full' as const,
      what: 'The disk is full: the newest readings are held in memory',
      where: 'ledger.sqlite',
      todo: 'Free some space now; what is held is written as soon as there is room.',
    };
    return { ...QUIET_SCENE, ...withJob(true), poweredS: 20, trouble: full };
  },
  long: () => ({ ...QUIET_SCENE, ...withJob(true), draw: wakingDraw(19), poweredS: 8 * 3600 }),
};
