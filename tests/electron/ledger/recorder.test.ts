import { copyFileSync } from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import type { TrackerSettings } from '../../../core/stages/stage.ts';
import type { TraceColumns, TraceWindow } from '../../../core/trace/sample.ts';
import { windowOfSamples } from '../../../core/trace/window-of-samples.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { jobFields, report, runStart, samples } from '../../support/ledger-samples.ts';
import { openBare } from '../../support/ledger-schema.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('recorder');
const file = path.join(folder, 'ledger.sqlite');
const clock = { ms: Date.UTC(2026, 1, 2, 8) };
const ledger = await openLedgerInThread({ path: file, now: () => clock.ms });
afterAll(() => ledger.close());
const { handlers, recorder } = ledger;
const { settings } = runStart();

const codeOf = (call: unknown) =>
  Promise.resolve(call).then(
    () => null,
    (e: unknown) => (e instanceof WakelineError ? e.trouble.code : e),
  );
const all = (id: string) =>
  handlers.readSamples({ id, fromTick: 0, toTick: Number.MAX_SAFE_INTEGER, limit: 200_000 });
const end = (runId: string, endedAt = clock.ms, said = report()) =>
  recorder.endRun({ runId, endedAt, end: 'output-off', report: said, settings });

describe('recording', () => {
  it('keeps every sample bit for bit, readings that were not taken too', async () => {
    const run = await recorder.startRun(runStart());
    const columns: TraceColumns = {
      ticks: Float64Array.of(0, 0, 7, 501, 2 ** 40),
      volts: Float64Array.of(0.1 + 0.2, Number.NaN, -0.006, 5e-324, 1e21),
      amps: Float64Array.of(Number.NaN, 1 / 3, 0, -0.00015, 19.9995),
      regulation: Uint8Array.of(0, 1, 2, 3, 4),
    };
    await recorder.appendSupply({ runId: run.id, columns });
    expect(await all(run.id)).toEqual(columns);
    const ended = await end(run.id);
    expect(ended).toMatchObject({ samples: 5, durationS: 2 ** 40 / 10_000 });
    expect(await all(run.id)).toEqual(columns);
  });

  it('gives the same run however its samples were handed in', async () => {
    const whole = samples(5000);
    const ids: string[] = [];
    for (const size of [1, 700, 5000]) {
      const run = await recorder.startRun(runStart());
      ids.push(run.id);
      for (let from = 0; from < (size === 1 ? 1100 : 5000); from += size) {
        const to = from + size;
        await recorder.appendSupply({
          runId: run.id,
          columns: {
            ticks: whole.ticks.slice(from, to),
            volts: whole.volts.slice(from, to),
            amps: whole.amps.slice(from, to),
            regulation: whole.regulation.slice(from, to),
          },
        });
      }
      if (size !== 1) expect(await all(run.id)).toEqual(whole);
      await end(run.id);
    }
    expect((await all(ids[0]!)).ticks).toEqual(whole.ticks.slice(0, 1100));
    expect(await all(ids[1]!)).toEqual(whole);
    expect(await all(ids[2]!)).toEqual(whole);
  });

  it('is on disk within half a second, without being asked', async () => {
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(3) });
    await new Promise((resolve) => setTimeout(resolve, 500));
    // A copy of the files as a crash would leave them, read by SQLite alone.
    const copy = path.join(folder, 'as-crashed.sqlite');
    copyFileSync(file, copy);
    copyFileSync(`${file}-wal`, `${copy}-wal`);
    const crashed = openBare(copy);
    const stored = crashed
      .prepare<[string], number>(
        'select sum(c.samples) from chunks c join tracks t on t.id = c.track_id where t.run_id = ?',
      )
      .pluck()
      .get(run.id);
    crashed.close();
    expect(stored).toBe(3);
    await end(run.id);
  });

  it('refuses samples that go back in time or do not fit together, and keeps those before', async () => {
    const run = await recorder.startRun(runStart());
    const good = samples(10);
    await recorder.appendSupply({ runId: run.id, columns: good });
    const back = samples(10, { fromTick: 4000 });
    expect(await codeOf(recorder.appendSupply({ runId: run.id, columns: back }))).toBe('bad-input');
    const odd = { ...samples(4, { fromTick: 9000 }), volts: new Float64Array(3) };
    expect(await codeOf(recorder.appendSupply({ runId: run.id, columns: odd }))).toBe('bad-input');
    expect(await all(run.id)).toEqual(good);
    await end(run.id);
    expect(await codeOf(recorder.appendSupply({ runId: run.id, columns: good }))).toBe('not-found');
  });

  it("keeps the meter's readings on a track of their own", async () => {
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(20) });
    await recorder.appendMeter({
      runId: run.id,
      columns: {
        ticks: Float64Array.of(10, 4010),
        values: Float64Array.of(8.604, Number.NaN),
        overload: Uint8Array.of(0, 1),
        quantity: 'volts',
      },
    });
    await end(run.id);
    expect((await all(run.id)).ticks).toHaveLength(20);
    expect((await handlers.readRun({ id: run.id })).run.samples).toBe(20);
  });

  it('does not begin a run for a job that is not there', async () => {
    const jobId = '018f0000-0000-7000-8000-000000000000';
    expect(await codeOf(recorder.startRun(runStart({ jobId })))).toBe('not-found');
  });
});

describe('reading a run', () => {
  it('shows a live run and a kept one alike, coarse and fine', async () => {
    const columns = samples(6000);
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns });
    const read = async (fromTick: number, toTick: number, width: number) =>
      handlers.readWindow({ id: run.id, fromTick, toTick, columns: width });
    const live = [await read(0, 3_000_000, 60), await read(1_000_000, 1_010_000, 200)];
    const whole = { id: run.id, samples: 6000, durationS: (5999 * 500) / 10_000 };
    expect((await handlers.readRun({ id: run.id })).run).toMatchObject(whole);
    await end(run.id);
    const kept = [await read(0, 3_000_000, 60), await read(1_000_000, 1_010_000, 200)];
    // Means are stored rounded to a fraction of the last digit; everything else is the same.
    const exact = ({ ampsMean: _, voltsMean: __, ...rest }: TraceWindow) => rest;
    expect(kept.map(exact)).toEqual(live.map(exact));
    for (const [i, mean] of kept[0]!.ampsMean.entries()) {
      expect(mean).toBeCloseTo(live[0]!.ampsMean[i]!, 3);
    }
    expect((await handlers.readRun({ id: run.id })).run).toMatchObject(whole);
    expect(live[1]).toEqual(windowOfSamples(columns, 1_000_000, 1_010_000, 200));
    expect(Math.max(...live[0]!.ampsMax)).toBe(Math.max(...columns.amps));
  });

  it('answers an empty stretch of a run without samples with nothing', async () => {
    const run = await recorder.startRun(runStart());
    const window = await handlers.readWindow({
      id: run.id,
      fromTick: 0,
      toTick: 1000,
      columns: 10,
    });
    expect(window.tick).toHaveLength(0);
    expect((await all(run.id)).ticks).toHaveLength(0);
    await end(run.id);
  });

  it('hands out at most as many samples as asked for, from the beginning of the stretch', async () => {
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(3000) });
    const part = await handlers.readSamples({
      id: run.id,
      fromTick: 500_001,
      toTick: 1e9,
      limit: 1500,
    });
    expect(part.ticks).toHaveLength(1500);
    expect([part.ticks[0], part.ticks[1499]]).toEqual([500_500, 500_500 + 1499 * 500]);
    await end(run.id);
  });
});

describe('what the tracker says', () => {
  it('grows while the run goes on, and is replaced by nothing once it has ended', async () => {
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(100) });
    const early = report({ stages: report().stages.map((s) => ({ ...s, final: false })) });
    await recorder.saveReport({ runId: run.id, report: early, settings });
    expect((await handlers.readRun({ id: run.id })).report).toEqual(early);
    const late = report({ peakA: 0.9 });
    await end(run.id, clock.ms, late);
    expect((await handlers.readRun({ id: run.id })).report).toEqual(late);

    const again = report({ trackerVersion: 2, stages: [], peakA: 0.1 });
    const other: TrackerSettings = { ...settings, runningA: 0.4 };
    await recorder.saveReport({ runId: run.id, report: again, settings: other });
    expect((await handlers.readRun({ id: run.id })).report).toEqual(again);
    expect((await handlers.readRun({ id: run.id })).run.peakA).toBe(0.1);
  });

  it('is joined by notes that people add afterwards, in order of time', async () => {
    const job = await handlers.createJob(jobFields());
    const run = await recorder.startRun(runStart({ jobId: job.id }));
    await recorder.appendSupply({ runId: run.id, columns: samples(100) });
    await end(run.id);
    const said = await handlers.addRunNote({ id: run.id, atS: 0.2, text: 'Smell of flux' });
    expect(said.marks).toEqual([
      { mark: 'note', atS: 0.2, text: 'Smell of flux' },
      ...report().marks,
    ]);
    expect((await handlers.readRun({ id: run.id })).report).toEqual(said);
    const found = await handlers.listJobs({ search: 'smell flux', limit: 5 });
    expect(found.map((line) => line.id)).toEqual([job.id]);
  });
});

describe('a run without a job', () => {
  it('can be given to one and taken away again', async () => {
    const job = await handlers.createJob(jobFields());
    const run = await recorder.startRun(runStart());
    await recorder.appendSupply({ runId: run.id, columns: samples(100) });
    await end(run.id);
    expect((await handlers.giveRun({ id: run.id, jobId: job.id })).jobId).toBe(job.id);
    const whole = await handlers.readJob({ id: job.id });
    expect(whole.runs.map((one) => one.id)).toEqual([run.id]);
    expect(whole.items.find((item) => item.step === 'first-run')?.state).toBe('done');
    await handlers.giveRun({ id: run.id, jobId: null });
    expect((await handlers.readJob({ id: job.id })).runs).toEqual([]);
  });

  it('is let go once it is older than the ring, its readings are not', async () => {
    const old = await recorder.startRun(runStart({ kind: 'idle', startedAt: 1_000_000 }));
    await recorder.appendSupply({ runId: old.id, columns: samples(100) });
    const reading = await handlers.addReading({
      jobId: null,
      itemId: null,
      runId: old.id,
      quantity: 'volts',
      value: 5,
      overload: false,
      decimals: 2,
      place: 'bench',
      expectedLow: null,
      expectedHigh: null,
      source: 'meter',
    });
    await end(old.id, 1_005_000);
    const young = await recorder.startRun(runStart({ kind: 'idle', startedAt: 2_000_000 }));
    await end(young.id, 2_005_000);
    const touched = await recorder.trimLoose({ olderThan: 2_000_000 });
    expect(touched).toBe(1);
    expect(await codeOf(handlers.readRun({ id: old.id }))).toBe('not-found');
    expect((await handlers.readRun({ id: young.id })).run.id).toBe(young.id);
    const kept = (await handlers.looseReadings({})).find((one) => one.id === reading.id);
    expect(kept).toEqual({ ...reading, runId: null });
  });

  it('loses its oldest stretch while it goes on, and goes on recording', async () => {
    const run = await recorder.startRun(runStart({ kind: 'idle', startedAt: 3_000_000 }));
    await recorder.appendSupply({ runId: run.id, columns: samples(5000) });
    await all(run.id);
    await recorder.trimLoose({ olderThan: 3_000_000 + 100_000 });
    await recorder.appendSupply({
      runId: run.id,
      columns: samples(10, { fromTick: 5000 * 500 }),
    });
    const kept = await all(run.id);
    expect(kept.ticks[kept.ticks.length - 1]).toBe(5009 * 500);
    expect(kept.ticks[0]).toBeGreaterThan(0);
    expect(kept.ticks[0]).toBeLessThanOrEqual(1_000_000);
    const ended = await end(run.id, 3_250_000);
    expect(ended.samples).toBe(kept.ticks.length);
    const window = await handlers.readWindow({
      id: run.id,
      fromTick: 0,
      toTick: 5010 * 500,
      columns: 50,
    });
    expect(window.count.reduce((sum, n) => sum + n, 0)).toBeGreaterThan(0);
  });
});
