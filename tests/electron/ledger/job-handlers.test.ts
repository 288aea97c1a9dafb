import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('jobs');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const told: string[] = [];
const ledger = await openLedgerInThread({
  path: path.join(folder, 'ledger.sqlite'),
  now: () => clock.ms,
  onJobChanged: (id) => told.push(id),
});
afterAll(() => ledger.close());
const { handlers } = ledger;

describe('taking in a job', () => {
  it('keeps every field and numbers jobs from 1', async () => {
    const fields = jobFields({ boardModel: null, liquid: 'unknown', promised: 'Friday' });
    const job = await handlers.createJob(fields);
    expect(job).toMatchObject({ ...fields, number: 1, state: 'open', outcome: null });
    expect(job.createdAt).toBe(clock.ms);
    expect((await handlers.readJob({ id: job.id })).job).toEqual(job);
    expect(told).toContain(job.id);
  });

  it('gives the job the steps of its template, open, in the order of the phases', async () => {
    const job = await handlers.createJob(jobFields({ template: 'controller' }));
    const { items } = await handlers.readJob({ id: job.id });
    expect(items.map((item) => item.state)).toEqual(items.map(() => 'open'));
    expect(items.find((item) => item.step === 'field-outputs-off')).toMatchObject({
      phase: 'Look',
      beforePower: true,
      caution: expect.stringContaining('moves machinery'),
    });
    expect(items.some((item) => item.step === 'second-run')).toBe(false);
  });

  it('refuses a checklist that there is not, and keeps nothing of the job', async () => {
    const count = (await handlers.listJobs({ search: '', limit: 500 })).length;
    await expect(
      Promise.resolve(handlers.createJob(jobFields({ template: 'wishful' }))),
    ).rejects.toThrow(/no checklist called "wishful".*Choose one of/s);
    expect(await handlers.listJobs({ search: '', limit: 500 })).toHaveLength(count);
  });

  it('washes a board that got wet, whatever the template', async () => {
    const wet = await handlers.createJob(jobFields({ liquid: 'yes' }));
    const dry = await handlers.createJob(jobFields({ liquid: 'no' }));
    const steps = async (id: string) =>
      (await handlers.readJob({ id })).items.map((item) => item.step);
    expect(await steps(wet.id)).toContain('bath-and-rinse');
    expect(await steps(dry.id)).not.toContain('bath-and-rinse');
    await handlers.changeJob({ id: dry.id, fields: { liquid: 'yes' } });
    expect(await steps(dry.id)).toEqual(await steps(wet.id));
  });
});

describe('a comeback', () => {
  it('is linked by serial number, whatever its case and spaces', async () => {
    const first = await handlers.createJob(jobFields({ serialNumber: 'ZX 99-a' }));
    clock.ms += 1000;
    const second = await handlers.createJob(jobFields({ serialNumber: ' zx99-A ' }));
    expect(first.comebackOf).toBeNull();
    expect(second.comebackOf).toEqual({ id: first.id, number: first.number });
  });

  it('is never made of jobs without a serial number', async () => {
    await handlers.createJob(jobFields({ serialNumber: '' }));
    const other = await handlers.createJob(jobFields({ serialNumber: '  ' }));
    expect(other.comebackOf).toBeNull();
  });

  it('follows when a serial number is corrected, both ways', async () => {
    const first = await handlers.createJob(jobFields({ serialNumber: 'typo-1' }));
    clock.ms += 1000;
    const second = await handlers.createJob(jobFields({ serialNumber: 'right-1' }));
    const linked = await handlers.changeJob({ id: first.id, fields: { serialNumber: 'RIGHT-1' } });
    expect(linked.comebackOf).toBeNull();
    const again = await handlers.readJob({ id: second.id });
    expect(again.job.comebackOf?.id).toBe(first.id);
    await handlers.changeJob({ id: first.id, fields: { serialNumber: 'other' } });
    expect((await handlers.readJob({ id: second.id })).job.comebackOf).toBeNull();
  });
});

describe('the job book', () => {
  it('finds a job when every word occurs somewhere in it', async () => {
    const job = await handlers.createJob(
      jobFields({ customer: 'Ærø Værksted', serialNumber: 'QQ 77', symptom: 'Blinks 3 times' }),
    );
    const find = async (search: string) =>
      (await handlers.listJobs({ search, limit: 50 })).map((line) => line.id);
    expect(await find('ÆRØ blinks')).toEqual([job.id]);
    expect(await find('qq77')).toEqual([job.id]);
    expect(await find(`#${job.number}`)).toEqual([job.id]);
    expect(await find('blinks never')).toEqual([]);
    expect(await find('   ')).toContain(job.id);
  });

  it('takes signs that mean something to SQL as themselves', async () => {
    const job = await handlers.createJob(jobFields({ symptom: `100% dead_it's \\ "so"` }));
    await handlers.createJob(jobFields({ symptom: '100x livesXits' }));
    for (const search of ['100% dead', 'dead_it', "it's", '\\ dead_it', '"so"']) {
      const found = await handlers.listJobs({ search, limit: 50 });
      expect(found.map((line) => line.id)).toEqual([job.id]);
    }
  });

  it('finds readings by their place, parts, and what was written at a step', async () => {
    const job = await handlers.createJob(jobFields());
    const { items } = await handlers.readJob({ id: job.id });
    const note = items.find((item) => item.needs === 'note')!;
    await handlers.doItem({ jobId: job.id, itemId: note.id, note: 'Cat sat on it' });
    await handlers.addReading({
      jobId: job.id,
      itemId: null,
      runId: null,
      quantity: 'volts',
      value: 1.8,
      overload: false,
      decimals: null,
      place: 'PP1V8-memory',
      expectedLow: null,
      expectedHigh: null,
      source: 'typed',
    });
    await handlers.addPart({
      jobId: job.id,
      part: {
        action: 'lifted',
        designator: 'U7501',
        kind: 'converter',
        value: '',
        rail: '',
        stateFound: 'bulging',
        from: '',
      },
    });
    for (const search of ['cat sat', 'pp1v8', 'u7501 bulging']) {
      const found = await handlers.listJobs({ search, limit: 50 });
      expect(found.map((line) => line.id)).toEqual([job.id]);
    }
  });

  it('shows newest first, at most as many as asked for', async () => {
    const lines = await handlers.listJobs({ search: '', limit: 3 });
    expect(lines).toHaveLength(3);
    const numbers = lines.map((line) => line.number);
    expect(numbers).toEqual([...numbers].sort((a, b) => b - a));
  });
});

describe('closing a job', () => {
  it('keeps its outcome, shows it while closed, and reopens', async () => {
    const job = await handlers.createJob(jobFields());
    const outcome = { verdict: 'partly', cause: 'c', provedBy: 'p', misledBy: 'm' } as const;
    const closed = await handlers.closeJob({ id: job.id, outcome });
    expect(closed).toMatchObject({ state: 'closed', outcome: { ...outcome, closedAt: clock.ms } });
    const [line] = await handlers.listJobs({ search: `#${job.number}`, limit: 1 });
    expect(line?.verdict).toBe('partly');
    const open = await handlers.setJobState({ id: job.id, state: 'waiting' });
    expect(open).toMatchObject({ state: 'waiting', outcome: null });
  });
});

describe('walking another template', () => {
  it('keeps what was done and measured, and drops only untouched steps', async () => {
    const job = await handlers.createJob(jobFields({ template: 'charging' }));
    const before = (await handlers.readJob({ id: job.id })).items;
    const cells = before.find((item) => item.step === 'cells-unplugged')!;
    const cellLine = before.find((item) => item.step === 'charges-a-good-cell')!;
    await handlers.doItem({ jobId: job.id, itemId: cells.id, note: '' });
    await handlers.doItem({ jobId: job.id, itemId: cellLine.id, note: 'tried early' });
    await handlers.changeJob({ id: job.id, fields: { template: 'no-picture' } });
    const after = (await handlers.readJob({ id: job.id })).items;
    expect(after.find((item) => item.id === cells.id)?.state).toBe('done');
    expect(after.find((item) => item.id === cellLine.id)?.reason).toBe('tried early');
    expect(after.some((item) => item.step === 'handshake')).toBe(false);
    expect(after.some((item) => item.step === 'volts-backlight')).toBe(true);
  });
});

describe('an id that names nothing', () => {
  it('is told as such', async () => {
    const id = '018f0000-0000-7000-8000-000000000000';
    const thrown = await Promise.resolve(handlers.readJob({ id })).catch((e: unknown) => e);
    expect(thrown).toBeInstanceOf(WakelineError);
    expect((thrown as WakelineError).trouble).toMatchObject({ code: 'not-found' });
  });
});
