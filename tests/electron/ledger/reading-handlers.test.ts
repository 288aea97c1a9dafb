import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import type { Reading } from '../../../core/job/job.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('readings');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({
  path: path.join(folder, 'ledger.sqlite'),
  now: () => clock.ms,
});
afterAll(() => ledger.close());
const { handlers } = ledger;

type Fields = Omit<Reading, 'id' | 'takenAt'>;
const reading = (fields: Partial<Fields> = {}): Fields => ({
  jobId: null,
  itemId: null,
  runId: null,
  quantity: 'ohms',
  value: 0.1 + 0.2,
  overload: false,
  decimals: 4,
  place: 'VIN',
  expectedLow: null,
  expectedHigh: 10,
  source: 'meter',
  ...fields,
});

const codeOf = (call: unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble.code : e),
  );

async function newJob() {
  const job = await handlers.createJob(jobFields());
  const item = async (step: string) =>
    (await handlers.readJob({ id: job.id })).items.find((one) => one.step === step)!;
  const tick = async (step: string) =>
    handlers.doItem({ jobId: job.id, itemId: (await item(step)).id, note: '' });
  return { jobId: job.id, item, tick };
}

describe('a reading', () => {
  it('is kept exactly as it was taken, with its place and time', async () => {
    const { jobId } = await newJob();
    const kept = await handlers.addReading(reading({ jobId }));
    expect(kept).toMatchObject({ value: 0.1 + 0.2, takenAt: clock.ms, jobId });
    expect((await handlers.readJob({ id: jobId })).readings).toEqual([kept]);
  });

  it('can be over range instead of a number, but not nothing', async () => {
    const { jobId } = await newJob();
    const over = await handlers.addReading(reading({ jobId, value: null, overload: true }));
    expect(over).toMatchObject({ value: null, overload: true });
    expect(await codeOf(handlers.addReading(reading({ jobId, value: null })))).toBe('bad-input');
  });

  it('for a step does that step, and hangs on it', async () => {
    const { jobId, item, tick } = await newJob();
    await tick('cells-unplugged');
    await tick('capacitors-discharged');
    const step = await item('ohms-input');
    const kept = await handlers.addReading(reading({ itemId: step.id, place: '' }));
    expect(kept).toMatchObject({ jobId, place: 'Input' });
    expect(await item('ohms-input')).toMatchObject({
      state: 'done',
      at: clock.ms,
      readings: [kept],
    });
  });

  it('of another quantity than the step needs is refused', async () => {
    const { item } = await newJob();
    const step = await item('volts-main-rail');
    expect(await codeOf(handlers.addReading(reading({ itemId: step.id })))).toBe('bad-input');
    expect((await item('volts-main-rail')).state).toBe('open');
  });

  it('in ohms waits until cells are out and capacitors empty, or why not', async () => {
    const { jobId, item, tick } = await newJob();
    const step = await item('ohms-input');
    const early = () => handlers.addReading(reading({ itemId: step.id }));
    expect(await codeOf(early())).toBe('gate-closed');
    await tick('cells-unplugged');
    expect(await codeOf(early())).toBe('gate-closed');
    const caps = await item('capacitors-discharged');
    await handlers.skipItem({ jobId, itemId: caps.id, reason: 'none on this board' });
    expect(await codeOf(early())).toBeNull();
  });

  it('taken with no job open can be given to one, and taken away again', async () => {
    const { jobId, item } = await newJob();
    const loose = await handlers.addReading(reading({ quantity: 'volts' }));
    expect(await handlers.looseReadings({})).toContainEqual(loose);
    const step = await item('volts-main-rail');
    const given = await handlers.giveReading({
      readingId: loose.id,
      jobId,
      itemId: step.id,
      place: 'Main rail',
    });
    expect(given).toEqual({ ...loose, jobId, itemId: step.id, place: 'Main rail' });
    expect((await item('volts-main-rail')).state).toBe('done');
    await handlers.giveReading({ readingId: loose.id, jobId: null, itemId: null, place: 'VIN' });
    expect((await item('volts-main-rail')).state).toBe('open');
    expect(await handlers.looseReadings({})).toContainEqual(loose);
  });
});

describe('a step of the checklist', () => {
  it('that needs a reading is not done by a tick alone', async () => {
    const { jobId, item } = await newJob();
    const step = await item('ohms-input');
    const tick = () => handlers.doItem({ jobId, itemId: step.id, note: 'fine' });
    expect(await codeOf(tick())).toBe('bad-input');
    const skipped = await handlers.skipItem({ jobId, itemId: step.id, reason: 'probe is broken' });
    expect(skipped).toMatchObject({ state: 'skipped', reason: 'probe is broken', at: clock.ms });
    const open = await handlers.reopenItem({ jobId, itemId: step.id });
    expect(open).toMatchObject({ state: 'open', at: null });
  });

  it('is skipped with a reason or not at all', async () => {
    const { jobId, item } = await newJob();
    const step = await item('looked-over');
    expect(await codeOf(handlers.skipItem({ jobId, itemId: step.id, reason: '   ' }))).toBe(
      'bad-input',
    );
    expect((await item('looked-over')).state).toBe('open');
  });

  it('of another job is not touched', async () => {
    const mine = await newJob();
    const other = await newJob();
    const step = await other.item('looked-over');
    const call = handlers.doItem({ jobId: mine.jobId, itemId: step.id, note: '' });
    expect(await codeOf(call)).toBe('not-found');
    expect((await other.item('looked-over')).state).toBe('open');
  });
});

describe('a reading that was none', () => {
  it('is taken back, and its step opens again when it was the only one', async () => {
    const { jobId, item, tick } = await newJob();
    await tick('cells-unplugged');
    await tick('capacitors-discharged');
    const step = await item('ohms-input');
    const first = await handlers.addReading(reading({ jobId, itemId: step.id }));
    const second = await handlers.addReading(reading({ jobId, itemId: step.id, value: 9 }));
    await handlers.forgetReading({ readingId: first.id });
    expect(await item('ohms-input')).toMatchObject({ state: 'done', readings: [{ value: 9 }] });
    await handlers.forgetReading({ readingId: second.id });
    expect(await item('ohms-input')).toMatchObject({ state: 'open', readings: [] });
    expect(await codeOf(handlers.forgetReading({ readingId: second.id }))).toBe('not-found');
  });

  it('can also be a loose one', async () => {
    const loose = await handlers.addReading(reading({ place: 'nowhere' }));
    await handlers.forgetReading({ readingId: loose.id });
    expect((await handlers.looseReadings({})).map((one) => one.id)).not.toContain(loose.id);
  });
});

describe('words on a step', () => {
  it('stand beside it while it stays open', async () => {
    const { jobId, item } = await newJob();
    const step = await item('soaked');
    await handlers.noteItem({ jobId, itemId: step.id, note: 'Soak failed: fell back.' });
    expect(await item('soaked')).toMatchObject({
      state: 'open',
      reason: 'Soak failed: fell back.',
    });
  });
});
