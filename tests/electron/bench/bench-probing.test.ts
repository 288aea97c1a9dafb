import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import type { ProbeState } from '../../../core/contract/probing-calls.ts';
import { WakelineError } from '../../../core/errors.ts';
import type { Quantity } from '../../../core/job/job.ts';
import { createBenchProbing } from '../../../electron/bench/bench-probing.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { benchState } from '../../support/idle-bench.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const ledger = await openLedgerInThread({
  path: path.join(tempFolder('probing'), 'ledger.sqlite'),
});
afterAll(() => ledger.close());
const { handlers } = ledger;

const EVERY_MS = 200;

/** A job with its steps before ohms done, and a meter that is touched by hand. */
async function atTheBench(o: { canSwitch?: boolean; isDead?: boolean; withJob?: boolean } = {}) {
  const job = await handlers.createJob(jobFields());
  const item = async (step: string) =>
    (await handlers.readJob({ id: job.id })).items.find((one) => one.step === step)!;
  for (const step of ['cells-unplugged', 'capacitors-discharged']) {
    await handlers.doItem({ jobId: job.id, itemId: (await item(step)).id, note: '' });
  }
  let quantity: Quantity = 'ohms';
  let tMs = 0;
  const switched: Quantity[] = [];
  const states: ProbeState[] = [];
  let bench = benchState({
    jobId: o.withJob === false ? null : job.id,
    meter: { quantity },
    supply: { outputOn: false, volts: 0 },
  });
  const probing = createBenchProbing({
    bench: () => bench,
    setFunction: async (next) => {
      if (o.canSwitch === false) {
        throw new WakelineError({
          code: 'cannot-switch',
          what: 'This meter cannot be set',
          where: 'meter',
          todo: 'Turn its switch by hand.',
        });
      }
      switched.push(next);
      quantity = next;
      bench = { ...bench, meter: { ...bench.meter, quantity } };
    },
    ledger: handlers,
    tell: (state) => states.push(state),
    wallMs: () => 1,
  });
  /** One reading of a tip that sees this in ohms; null = the air. In volts it sees a dead point. */
  async function read(seen: number | null): Promise<void> {
    tMs += EVERY_MS;
    const inVolts = quantity === 'volts';
    const point = seen === null || (o.isDead ?? true) ? 0.0001 : 3.3;
    const value = inVolts
      ? switched.at(-1) === 'volts' && checking()
        ? point
        : (seen ?? 0)
      : seen;
    probing.push(
      {
        quantity,
        value,
        overload: value === null,
        decimals: 3,
        sentMs: tMs - 20,
        gotMs: tMs,
      },
      tMs,
    );
    // The check of the volts and the ledger go on between two readings.
    await new Promise((resolve) => setTimeout(resolve, 4));
  }
  const checking = () => states.at(-1)?.phase === 'checking';
  async function touch(value: number): Promise<void> {
    for (let i = 0; i < 10; i += 1) await read(value);
    await probing.settled;
    for (let i = 0; i < 8; i += 1) await read(null);
  }
  for (let i = 0; i < 3; i += 1) await read(null);
  const start = async (along: 'list' | 'free', itemIds: string[] | null = null) => {
    const state = await probing.handlers.startProbing({ along, itemIds });
    for (let i = 0; i < 3; i += 1) await read(null);
    return state;
  };
  const now = () => probing.handlers.probeState({}) as ProbeState;
  return {
    job,
    item,
    probing,
    read,
    touch,
    start,
    now,
    switched,
    setBench: (part: Partial<typeof bench>) => {
      bench = { ...bench, ...part };
      probing.benchChanged(bench);
    },
    bench: () => bench,
  };
}

describe('hands-free along the checklist', () => {
  it('stores each touch on the next point, checks the volts first and settles the steps', async () => {
    const { start, touch, item, now, switched } = await atTheBench();
    const begun = await start('list');
    expect(begun).toMatchObject({ along: 'list', next: { title: 'Resistance to ground, input' } });
    await touch(1240);
    expect(switched.slice(0, 2)).toEqual(['volts', 'ohms']);
    expect(await item('ohms-input')).toMatchObject({
      state: 'done',
      readings: [{ quantity: 'ohms', value: 1240, source: 'meter', place: 'Input' }],
    });
    expect(now()).toMatchObject({ takes: 1, next: { title: 'Resistance to ground, main rail' } });
    await touch(870);
    expect(await item('ohms-main-rail')).toMatchObject({ state: 'done' });
  });

  it('keeps no resistance of a point that still has volts', async () => {
    const { start, touch, item, now } = await atTheBench({ isDead: false });
    await start('list');
    await touch(1240);
    expect(await item('ohms-input')).toMatchObject({ state: 'open', readings: [] });
    expect(now().takes).toBe(0);
  });

  it('keeps a reading of a meter whose switch is turned by hand', async () => {
    const { start, touch, item } = await atTheBench({ canSwitch: false });
    await start('list');
    await touch(1240);
    expect(await item('ohms-input')).toMatchObject({ state: 'done' });
  });

  it('refuses resistance while the output is on, in words', async () => {
    const { start, read, now, setBench, bench, item } = await atTheBench();
    await start('list');
    setBench({ supply: { ...bench().supply, outputOn: true, volts: 19 } });
    for (let i = 0; i < 8; i += 1) await read(1240);
    expect(now()).toMatchObject({ phase: 'refused' });
    expect(now().why).toContain('No ohms while the output is on');
    expect(await item('ohms-input')).toMatchObject({ readings: [] });
  });

  it('undoes: the reading goes, its step opens and is the next again', async () => {
    const { start, touch, item, now, probing } = await atTheBench();
    await start('list');
    await touch(1240);
    await probing.handlers.undoProbe({});
    expect(await item('ohms-input')).toMatchObject({ state: 'open', readings: [] });
    expect(now()).toMatchObject({ next: { title: 'Resistance to ground, input' }, taken: [] });
  });

  it('passes over a point and leaves its step open', async () => {
    const { start, touch, item, probing } = await atTheBench();
    await start('list');
    const skipped = await probing.handlers.skipProbe({});
    expect(skipped.next?.title).toBe('Resistance to ground, main rail');
    await touch(55);
    expect(await item('ohms-input')).toMatchObject({ state: 'open' });
    expect(await item('ohms-main-rail')).toMatchObject({
      state: 'done',
      readings: [{ value: 55 }],
    });
  });

  it('takes an open line by force, as over range', async () => {
    const { start, item, probing } = await atTheBench({ canSwitch: false });
    await start('list');
    await probing.handlers.forceProbe({});
    await probing.settled;
    expect(await item('ohms-input')).toMatchObject({
      state: 'done',
      readings: [{ value: null, overload: true }],
    });
  });

  it('replaces by a second touch within a moment, in the ledger too', async () => {
    const { start, read, item, now, probing } = await atTheBench({ canSwitch: false });
    await start('list');
    for (let i = 0; i < 6; i += 1) await read(1240);
    await probing.settled;
    await read(null);
    await read(null);
    for (let i = 0; i < 6; i += 1) await read(1180);
    await probing.settled;
    expect(await item('ohms-input')).toMatchObject({ readings: [{ value: 1180 }] });
    expect((await item('ohms-input')).readings).toHaveLength(1);
    expect(now().taken).toMatchObject([{ value: 1180, replaced: true }]);
  });

  it('stores a reading on its point when it is stopped right after the touch', async () => {
    const { start, read, item, probing, now } = await atTheBench({ canSwitch: false });
    await start('list');
    for (let i = 0; i < 4; i += 1) await read(1240);
    const settling = read(1240);
    probing.handlers.stopProbing({});
    await settling;
    await probing.settled;
    expect(now().along).toBe('off');
    expect(await item('ohms-input')).toMatchObject({ state: 'done', readings: [{ value: 1240 }] });
  });

  it('wants the lead in the air again after the meter was lost', async () => {
    const { start, read, now, setBench, bench } = await atTheBench({ canSwitch: false });
    await start('list');
    const meter = bench().meter;
    for (let i = 0; i < 3; i += 1) await read(1240);
    setBench({ meter: { ...meter, link: 'lost' } });
    expect(now().why).toContain('The meter was lost');
    setBench({ meter });
    for (let i = 0; i < 10; i += 1) await read(1240);
    expect(now().takes).toBe(0);
  });

  it('puts the meter in the function of the next point once the output is off', async () => {
    const { start, setBench, bench, probing, switched } = await atTheBench();
    await start('list');
    const { supply, meter } = bench();
    setBench({ supply: { ...supply, outputOn: true }, meter: { ...meter, quantity: 'volts' } });
    setBench({ supply: { ...supply, outputOn: false }, meter: { ...meter, quantity: 'volts' } });
    await probing.settled;
    expect(switched.at(-1)).toBe('ohms');
  });

  it('says so when a touch does not settle, and takes it once it does', async () => {
    const { start, read, now } = await atTheBench({ canSwitch: false });
    await start('list');
    for (let i = 0; i < 30; i += 1) await read(1000 + 20 * i);
    expect(now()).toMatchObject({ phase: 'settling', refusals: 0 });
    expect(now().why).toContain('It still moves');
    for (let i = 0; i < 8; i += 1) await read(1600);
    expect(now()).toMatchObject({ takes: 1, why: null });
  });

  it('says that a step comes first, and keeps nothing', async () => {
    const { start, touch, item, now, job } = await atTheBench({ canSwitch: false });
    await handlers.reopenItem({ jobId: job.id, itemId: (await item('cells-unplugged')).id });
    await start('list');
    await touch(1240);
    expect(await item('ohms-input')).toMatchObject({ state: 'open', readings: [] });
    expect(now().why).toContain('Not yet');
  });

  it('goes on at the next point when a step is settled by another hand', async () => {
    const { start, item, now, probing, job } = await atTheBench();
    await start('list');
    await handlers.skipItem({
      jobId: job.id,
      itemId: (await item('ohms-input')).id,
      reason: 'no access',
    });
    probing.jobChanged(job.id);
    await probing.settled;
    expect(now().next?.title).toBe('Resistance to ground, main rail');
  });

  it('stops when another job comes on the bench', async () => {
    const { start, now, setBench } = await atTheBench();
    await start('list');
    setBench({ jobId: null });
    expect(now().along).toBe('off');
  });
});

describe('hands-free at any point', () => {
  it('keeps readings in order without a name, and names them afterwards', async () => {
    const { start, touch, now, probing, job, item } = await atTheBench({ canSwitch: false });
    await start('free');
    await touch(10);
    await touch(1240);
    expect(now().taken).toMatchObject([
      { value: 1240, place: '' },
      { value: 10, place: '' },
    ]);
    const [newest, oldest] = now().taken;
    await probing.handlers.nameProbe({
      readingId: oldest!.readingId!,
      itemId: null,
      place: 'Coil L3',
    });
    const step = await item('ohms-input');
    await probing.handlers.nameProbe({
      readingId: newest!.readingId!,
      itemId: step.id,
      place: step.place,
    });
    const { readings } = await handlers.readJob({ id: job.id });
    expect(readings.map((one) => one.place).sort()).toEqual(['Coil L3', 'Input']);
    expect(await item('ohms-input')).toMatchObject({ state: 'done' });
  });

  it('works without a job: the readings are loose', async () => {
    const { start, touch, now } = await atTheBench({ canSwitch: false, withJob: false });
    await start('free');
    await touch(33);
    const loose = await handlers.looseReadings({});
    expect(loose.map((one) => one.id)).toContain(now().taken[0]?.readingId);
  });

  it('tells a view that stores in its own way, and stores nothing itself', async () => {
    const { probing, touch, read, now, job } = await atTheBench({ canSwitch: false });
    await probing.handlers.startProbing({ along: 'view', itemIds: null, quantity: 'ohms' });
    for (let i = 0; i < 3; i += 1) await read(null);
    await touch(470);
    expect(now()).toMatchObject({ takes: 1, taken: [{ readingId: null, value: 470 }] });
    expect((await handlers.readJob({ id: job.id })).readings).toEqual([]);
    await probing.handlers.undoProbe({});
    expect(now().why).toContain('no reading here');
  });

  it('refuses to begin without a meter, and along a list without a job', async () => {
    const { probing, setBench, bench } = await atTheBench();
    setBench({ jobId: null });
    await expect(probing.handlers.startProbing({ along: 'list', itemIds: null })).rejects.toThrow(
      'no job on the bench',
    );
    setBench({ meter: { ...bench().meter, link: 'lost' } });
    await expect(probing.handlers.startProbing({ along: 'free', itemIds: null })).rejects.toThrow(
      'No meter is connected',
    );
  });
});
