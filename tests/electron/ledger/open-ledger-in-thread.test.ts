import path from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { sqliteBinding } from '../../../electron/ledger/sqlite-binding.ts';
import { openSeededLedger } from '../../support/seed-ledger.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('whole');

describe('a ledger that was filled through its calls', () => {
  it('holds the same after it was closed and opened again', async () => {
    const file = path.join(folder, 'seeded.sqlite');
    const { ledger, seeded } = await openSeededLedger(file);
    const jobIds = Object.values(seeded.jobs);
    const runIds = Object.values(seeded.runs);
    const read = async (from: typeof ledger) => ({
      lines: await from.handlers.listJobs({ search: '', limit: 500 }),
      jobs: await Promise.all(jobIds.map((id) => from.handlers.readJob({ id }))),
      runs: await Promise.all(runIds.map((id) => from.handlers.readRun({ id }))),
      samples: await Promise.all(
        runIds.map((id) =>
          from.handlers.readSamples({ id, fromTick: 0, toTick: 1e9, limit: 200_000 }),
        ),
      ),
      loose: await from.handlers.looseReadings({}),
    });
    const before = await read(ledger);
    await ledger.close();

    const again = await openLedgerInThread({ path: file });
    expect(await read(again)).toEqual(before);
    expect(await again.handlers.recovered({})).toEqual([]);
    await again.close();

    expect(before.lines.map((line) => line.id)).toEqual([
      seeded.jobs.fresh,
      seeded.jobs.comeback,
      seeded.jobs.controller,
      seeded.jobs.liquid,
      seeded.jobs.repaired,
    ]);
    const repaired = before.lines.find((line) => line.id === seeded.jobs.repaired);
    expect(repaired).toMatchObject({ runs: 2, verdict: 'wakes', state: 'closed' });
    const comeback = before.lines.find((line) => line.id === seeded.jobs.comeback);
    expect(comeback?.isComeback).toBe(true);
    expect(before.samples.map((s) => s.ticks.length)).toEqual([600, 900, 800, 600, 400]);
  });

  it('leaves a file that SQLite itself finds whole, in write-ahead mode', async () => {
    const file = path.join(folder, 'checked.sqlite');
    const { ledger } = await openSeededLedger(file);
    await ledger.close();
    const nativeBinding = sqliteBinding();
    const sqlite = new BetterSqlite(file, nativeBinding === undefined ? {} : { nativeBinding });
    expect(sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(sqlite.pragma('foreign_key_check')).toEqual([]);
    expect(sqlite.pragma('journal_mode', { simple: true })).toBe('wal');
    sqlite.close();
  });
});
