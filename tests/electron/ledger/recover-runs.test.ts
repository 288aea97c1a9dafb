import { type ChildProcess, spawn } from 'node:child_process';
import path from 'node:path';
import { fileURLToPath } from 'node:url';
import BetterSqlite from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import type { WakelineError } from '../../../core/errors.ts';
import { openDatabase } from '../../../electron/ledger/open-database.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { sqliteBinding } from '../../../electron/ledger/sqlite-binding.ts';
import { runStart, samples } from '../../support/ledger-samples.ts';
import { tempFolder } from '../../support/temp-folder.ts';
import { runnable } from '../../support/worker-entry.ts';

const folder = tempFolder('recover');
const workerEntry = await runnable('electron/ledger/worker.ts');
const program = await runnable('tests/support/recording-process.ts');
const nativeBinding = sqliteBinding();
let child: ChildProcess | null = null;
afterEach(() => child?.kill('SIGKILL'));

/** Starts a recording process; resolves once it took `count` samples. */
async function recordUntil(file: string, count: number) {
  const lines: string[] = [];
  const errors: string[] = [];
  const started = spawn(process.execPath, [fileURLToPath(program), file, workerEntry.href], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  child = started;
  const exited = new Promise<void>((resolve) => started.on('exit', () => resolve()));
  started.stderr.on('data', (text: Buffer) => errors.push(text.toString()));
  let rest = '';
  await new Promise<void>((resolve, reject) => {
    started.stdout.on('data', (text: Buffer) => {
      const parts = (rest + text.toString()).split('\n');
      rest = parts.pop() ?? '';
      lines.push(...parts);
      if (lines.some((line) => line.startsWith(`took ${count} `))) resolve();
    });
    started.on('exit', () => reject(new Error(`the recording process ended: ${errors.join('')}`)));
  });
  return { started, lines, exited };
}

describe('an app that is killed while it records', () => {
  it('loses at most one second of samples and nothing else, and the next start says so', async () => {
    const file = path.join(folder, 'killed.sqlite');
    const { started, lines, exited } = await recordUntil(file, 70);
    const refused = await openDatabase({ path: file }).catch((e: unknown) => e);
    expect((refused as WakelineError).trouble.code).toBe('ledger-busy');
    started.kill('SIGKILL');
    await exited;
    const taken = lines.filter((line) => line.startsWith('took '));
    const last = taken[taken.length - 1]!.split(' ').map(Number);
    const runId = lines.find((line) => line.startsWith('run '))!.slice(4);

    const ledger = await openLedgerInThread({ path: file });
    const kept = await ledger.handlers.readSamples({
      id: runId,
      fromTick: 0,
      toTick: 1e9,
      limit: 200_000,
    });
    // Every sample from the first on, unchanged, up to a second before the last one taken.
    expect([...kept.amps]).toEqual(Array.from(kept.amps, (_, i) => i / 1000));
    const lostTicks = last[2]! - kept.ticks[kept.ticks.length - 1]!;
    expect(lostTicks).toBeLessThanOrEqual(10_000);
    expect(kept.ticks.length).toBeGreaterThan(70 - 20);

    const [found, ...others] = await ledger.handlers.recovered({});
    expect(others).toEqual([]);
    expect(found).toMatchObject({ jobNumber: 1, run: { id: runId, end: 'recovered' } });
    expect(found!.run.samples).toBe(kept.ticks.length);
    expect(found!.run.endedAt).toBe(
      found!.run.startedAt + Math.round(kept.ticks[kept.ticks.length - 1]! / 10),
    );
    expect(found!.lostS).toBeGreaterThan(0);
    expect(found!.lostS).toBeLessThanOrEqual(1);
    const { report } = await ledger.handlers.readRun({ id: runId });
    expect(report.marks).toContainEqual({
      mark: 'wake-request',
      atS: 0.5,
      text: 'Wake request.',
    });
    // Not the report of second 1 that was saved, but one over every sample that was kept.
    expect(report.samples).toBe(kept.ticks.length);
    expect(report.stages[report.stages.length - 1]?.final).toBe(true);
    await ledger.close();

    const sqlite = new BetterSqlite(file, nativeBinding === undefined ? {} : { nativeBinding });
    expect(sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(sqlite.pragma('foreign_key_check')).toEqual([]);
    sqlite.close();

    const again = await openLedgerInThread({ path: file });
    expect(await again.handlers.recovered({})).toEqual([]);
    await again.close();
  });
});

describe('recovery', () => {
  it('keeps loose runs that have samples and drops those that have none', async () => {
    const file = path.join(folder, 'loose.sqlite');
    const first = await openLedgerInThread({ path: file });
    const full = await first.recorder.startRun(runStart({ kind: 'idle' }));
    await first.recorder.startRun(runStart({ kind: 'idle' }));
    await first.recorder.appendSupply({ runId: full.id, columns: samples(30) });
    // Closing commits what waits but ends no run: as when the app goes without ending them.
    await first.close();
    const second = await openLedgerInThread({ path: file });
    expect((await second.handlers.listRuns({ jobId: null })).map((run) => run.id)).toEqual([
      full.id,
    ]);
    const [found] = await second.handlers.recovered({});
    expect(found).toMatchObject({ jobNumber: null, run: { samples: 30, durationS: 1.45 } });
    await second.close();
  });
});
