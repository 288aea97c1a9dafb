import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openLedger } from '../../../electron/ledger/ledger-client.ts';
import { jobFields, report, runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { runnable } from '../../support/worker-entry.ts';

const folder = tempFolder('client');
const workerEntry = await runnable('electron/ledger/worker.ts');
const told: string[] = [];
const file = path.join(folder, 'ledger.sqlite');
const ledger = await openLedger({ path: file, workerEntry, onJobChanged: (id) => told.push(id) });
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;

const thrownBy = (call: unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => e,
  );

describe('a ledger in its worker thread', () => {
  it('answers calls with plain values and tells of changed jobs', async () => {
    const job = await handlers.createJob(jobFields());
    expect(job).toMatchObject(jobFields());
    expect((await handlers.readJob({ id: job.id })).job).toEqual(job);
    expect(told).toContain(job.id);
  });

  it('brings troubles across the border whole', async () => {
    const id = '018f0000-0000-7000-8000-000000000000';
    const thrown = await thrownBy(handlers.readJob({ id }));
    expect(thrown).toBeInstanceOf(WakelineError);
    expect((thrown as WakelineError).trouble).toEqual({
      code: 'not-found',
      what: 'There is no job with this id',
      where: `job ${id}`,
      todo: expect.stringMatching(/job book/),
    });
  });

  it('copies the columns it is handed and moves those it answers', async () => {
    const run = await recorder.startRun(runStart());
    const columns = samples(2500);
    await recorder.appendSupply({ runId: run.id, columns });
    expect(columns.ticks).toHaveLength(2500);
    const back = await handlers.readSamples({
      id: run.id,
      fromTick: 0,
      toTick: 1e9,
      limit: 200_000,
    });
    expect(back).toEqual(columns);
    const { settings } = runStart();
    await recorder.endRun({
      runId: run.id,
      endedAt: 1,
      end: 'output-off',
      report: report(),
      settings,
    });
    const window = await handlers.readWindow({
      id: run.id,
      fromTick: 0,
      toTick: 2500 * 500,
      columns: 40,
    });
    expect(Math.max(...window.ampsMax)).toBe(Math.max(...columns.amps));
    expect(Math.min(...window.ampsMin)).toBe(Math.min(...columns.amps));
  });

  it('answers calls that were made at once in the order of their making', async () => {
    const run = await recorder.startRun(runStart());
    const parts = Array.from({ length: 40 }, (_, i) => samples(10, { fromTick: i * 5000 }));
    await Promise.all(parts.map((columns) => recorder.appendSupply({ runId: run.id, columns })));
    const back = await handlers.readSamples({ id: run.id, fromTick: 0, toTick: 1e9, limit: 500 });
    expect([...back.ticks]).toEqual(parts.flatMap((part) => [...part.ticks]));
  });

  it('refuses a second worker on the same file, and says what to do', async () => {
    const thrown = await thrownBy(openLedger({ path: file, workerEntry }));
    expect((thrown as WakelineError).trouble).toMatchObject({ code: 'ledger-busy', where: file });
  });

  it('refuses every call after it was closed', async () => {
    const other = await openLedger({ path: path.join(folder, 'other.sqlite'), workerEntry });
    await other.close();
    await other.close();
    expect(await thrownBy(other.handlers.listBin({}))).toBeInstanceOf(WakelineError);
  });
});
