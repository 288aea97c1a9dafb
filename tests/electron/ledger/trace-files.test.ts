import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { asyncBufferFromFile, parquetMetadataAsync, parquetReadObjects } from 'hyparquet';
import { afterAll, describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { csvRows } from '../../../core/trace/csv-write.ts';
import { TICKS_PER_SECOND } from '../../../core/trace/sample.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import {
  CHARGER_FEED,
  jobFields,
  report,
  runStart,
  samples,
} from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('traces');
const at = (name: string) => path.join(folder, name);
const told: { readBytes: number; totalBytes: number; samples: number }[] = [];
const ledger = await openLedgerInThread({
  path: at('ledger.sqlite'),
  onTraceProgress: (progress) => told.push(progress),
});
afterAll(() => ledger.close());
const { handlers, recorder, files } = ledger;
const job = await handlers.createJob(jobFields());

const columns = samples(70_000);
columns.volts[3] = Number.NaN;
columns.regulation[5] = 2;
const start = runStart({ jobId: job.id });
const { id } = await recorder.startRun(start);
await recorder.appendSupply({ runId: id, columns });
const { settings } = start;
await recorder.endRun({ runId: id, endedAt: 1, end: 'output-off', report: report(), settings });
const everything = { fromTick: 0, toTick: 1e10, limit: 200_000 };
const readBack = (source: string) =>
  files.readTrace({ path: source, jobId: job.id, feed: CHARGER_FEED, utcOffsetMin: 0 });
const troubleOf = (call: Promise<unknown>) =>
  call.then(
    () => null,
    (thrown: unknown) => (thrown instanceof WakelineError ? thrown.trouble : thrown),
  );

describe('a run written to a file', () => {
  it('is the same run to the last bit when its CSV is read back, with its stages named', async () => {
    const target = at('run.csv');
    const written = await files.writeRun({ id, format: 'csv', path: target });
    expect(written).toEqual({ path: target, samples: 70_000, bytes: statSync(target).size });
    const { run, notes } = await readBack(target);
    expect(notes).toEqual([]);
    expect(run).toMatchObject({ jobId: job.id, end: 'file-end', samples: 70_000, pretend: false });
    expect(run.reach).not.toBeNull();
    expect(await handlers.readSamples({ id: run.id, ...everything })).toEqual(columns);
    expect((await handlers.readJob({ id: job.id })).runs.map((one) => one.id)).toContain(run.id);
    expect(told.length).toBeGreaterThan(0);
    expect(told[0]!.totalBytes).toBe(written.bytes);
  });

  it('holds an object a line as JSON Lines', async () => {
    const target = at('run.jsonl');
    await files.writeRun({ id, format: 'jsonl', path: target });
    const lines = readFileSync(target, 'utf8').trimEnd().split('\n');
    expect(lines).toHaveLength(70_000);
    expect(JSON.parse(lines[3]!)).toEqual({
      timeS: 0.15,
      volts: null,
      amps: columns.amps[3],
      regulation: 'cv',
    });
  });

  it('is the same run as Parquet, as the reader of hyparam/hyparquet sees it', async () => {
    const target = at('run.parquet');
    const written = await files.writeRun({ id, format: 'parquet', path: target });
    const buffer = await asyncBufferFromFile(target);
    const about = await parquetMetadataAsync(buffer);
    expect(Number(about.num_rows)).toBe(70_000);
    expect(about.row_groups.length).toBe(2);
    const facts = Object.fromEntries(
      (about.key_value_metadata ?? []).map(({ key, value }) => [key, value]),
    );
    expect(facts).toMatchObject({ run: id, pretend_bench: 'true' });
    const rows = await parquetReadObjects({ file: buffer });
    expect(rows.map((row) => row.amps_A)).toEqual([...columns.amps]);
    expect(rows.map((row) => Math.round(Number(row.time_s) * TICKS_PER_SECOND))).toEqual([
      ...columns.ticks,
    ]);
    expect(rows[3]).toMatchObject({ volts_V: null, regulation: 'cv' });
    expect(rows[5]).toMatchObject({ regulation: 'cc' });
    expect(written.bytes).toBeLessThan(statSync(at('run.csv')).size);
    expect(execFileSync('head', ['-c', '4', target], { encoding: 'latin1' })).toBe('PAR1');
  });

  it('is whole or not there: a place that cannot be written leaves nothing behind', async () => {
    const missing = path.join(folder, 'nowhere', 'run.csv');
    expect(await troubleOf(files.writeRun({ id, format: 'csv', path: missing }))).toMatchObject({
      code: 'file-not-written',
    });
    writeFileSync(at('kept.csv'), 'what was there before\n');
    const empty = await recorder.startRun(runStart());
    const trouble = await troubleOf(
      files.writeRun({ id: empty.id, format: 'csv', path: at('kept.csv') }),
    );
    expect(trouble).toMatchObject({ code: 'bad-input', what: 'This run holds no readings' });
    expect(readFileSync(at('kept.csv'), 'utf8')).toBe('what was there before\n');
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });
});

describe('a trace file read into the ledger', () => {
  it('leaves nothing of a file that turns out to be unreadable half-way', async () => {
    const before = (await handlers.readJob({ id: job.id })).runs.length;
    const source = at('broken.csv');
    writeFileSync(source, `time_s,volts_V,amps_A,regulation\n${csvRows(columns)}4000,19,oops,cv\n`);
    expect(await troubleOf(readBack(source))).toMatchObject({
      code: 'bad-trace-file',
      where: expect.stringMatching(/row 70002/),
    });
    expect((await handlers.readJob({ id: job.id })).runs).toHaveLength(before);
    expect(await troubleOf(readBack(at('none.csv')))).toMatchObject({ code: 'bad-trace-file' });
    expect((await handlers.readJob({ id: job.id })).runs).toHaveLength(before);
  });

  it('takes a file in milliamps with a preamble, and says which rows it left out', async () => {
    const source = at('meter.csv');
    const rows = Array.from(
      { length: 400 },
      (_, i) => `${(i * 50).toFixed(0)};${i < 40 ? 2 : 240}`,
    );
    rows[200] = '10000;240;10050;241';
    writeFileSync(source, `Log of a meter\n\nTime (ms);Current (mA)\n${rows.join('\n')}\n`);
    const { run, notes } = await readBack(source);
    expect(run.samples).toBe(399);
    expect(run.peakA).toBeCloseTo(0.24, 6);
    expect(notes.some((note) => /row 20\d was left out/.test(note))).toBe(true);
    expect(existsSync(source)).toBe(true);
  });
});
