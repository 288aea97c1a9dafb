import { statSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { runStart } from '../../support/ledger-samples.ts';
import { openSeededLedger } from '../../support/seed-ledger.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('bin');
const file = path.join(folder, 'ledger.sqlite');
const { ledger, seeded } = await openSeededLedger(file);
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;
const codeOf = (call: unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble.code : e),
  );
const book = async () => (await handlers.listJobs({ search: '', limit: 99 })).map((j) => j.id);
const bin = async () => (await handlers.listBin({})).map((j) => j.id);

describe('the bin', () => {
  it('takes a job out of the book but keeps its runs until it is emptied', async () => {
    const id = seeded.jobs.repaired;
    const whole = await handlers.readJob({ id });
    await handlers.binJob({ id });
    expect(await book()).not.toContain(id);
    expect(await bin()).toEqual([id]);
    const run = await handlers.readRun({ id: seeded.runs.after });
    expect(run.run.samples).toBe(900);
    const back = await handlers.restoreJob({ id });
    expect(back).toEqual(whole.job);
    expect(await handlers.readJob({ id })).toEqual(whole);
    expect(await bin()).toEqual([]);
  });

  it('breaks the link of a comeback while the first visit lies in it', async () => {
    const linkOf = async () =>
      (await handlers.readJob({ id: seeded.jobs.comeback })).job.comebackOf?.id ?? null;
    expect(await linkOf()).toBe(seeded.jobs.repaired);
    await handlers.binJob({ id: seeded.jobs.repaired });
    expect(await linkOf()).toBeNull();
    await handlers.restoreJob({ id: seeded.jobs.repaired });
    expect(await linkOf()).toBe(seeded.jobs.repaired);
  });

  it('refuses a job whose run is being recorded', async () => {
    const id = seeded.jobs.fresh;
    const run = await recorder.startRun(runStart({ jobId: id }));
    expect(await codeOf(handlers.binJob({ id }))).toBe('bad-input');
    expect(await book()).toContain(id);
    await handlers.giveRun({ id: run.id, jobId: null });
    expect(await codeOf(handlers.binJob({ id }))).toBeNull();
    await handlers.restoreJob({ id });
  });

  it('takes no new runs for a job that lies in it', async () => {
    const id = seeded.jobs.fresh;
    await handlers.binJob({ id });
    expect(await codeOf(recorder.startRun(runStart({ jobId: id })))).toBe('not-found');
    await handlers.restoreJob({ id });
  });

  it('deletes for good only what lies in it when it is emptied, and nothing else', async () => {
    await handlers.binJob({ id: seeded.jobs.repaired });
    await handlers.binJob({ id: seeded.jobs.liquid });
    expect(await handlers.emptyBin({})).toBe(2);
    expect(await handlers.emptyBin({})).toBe(0);
    expect(await codeOf(handlers.readJob({ id: seeded.jobs.repaired }))).toBe('not-found');
    expect(await codeOf(handlers.readRun({ id: seeded.runs.after }))).toBe('not-found');
    expect(await codeOf(handlers.restoreJob({ id: seeded.jobs.repaired }))).toBe('not-found');
    expect(await book()).toEqual([seeded.jobs.fresh, seeded.jobs.comeback, seeded.jobs.controller]);
    expect((await handlers.readRun({ id: seeded.runs.controller })).run.samples).toBe(600);
  });

  it('gives the room of deleted runs back to the disk', async () => {
    const other = path.join(folder, 'room.sqlite');
    const first = await openSeededLedger(other);
    await first.ledger.close();
    const before = statSync(other).size;
    const again = await openLedgerInThread({ path: other });
    await again.handlers.binJob({ id: first.seeded.jobs.repaired });
    await again.handlers.emptyBin({});
    await again.close();
    expect(statSync(other).size).toBeLessThan(before - 8192);
  });

  it('never gives the number of a deleted job again', async () => {
    const { job } = await handlers.readJob({ id: seeded.jobs.fresh });
    await handlers.binJob({ id: job.id });
    await handlers.emptyBin({});
    const { id: _, number, ...fields } = job;
    expect((await handlers.createJob(fields)).number).toBe(number + 1);
  });
});
