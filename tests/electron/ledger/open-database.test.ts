import { execFileSync } from 'node:child_process';
import { chmodSync, existsSync, mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import BetterSqlite from 'better-sqlite3';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../../core/errors.ts';
import { openDatabase } from '../../../electron/ledger/open-database.ts';
import { openLedgerInThread } from '../../../electron/ledger/open-ledger-in-thread.ts';
import { sqliteBinding } from '../../../electron/ledger/sqlite-binding.ts';
import { jobFields, runStart, samples } from '../../support/ledger-samples.ts';
import { openSeededLedger } from '../../support/seed-ledger.ts';
import { tempFolder } from '../../support/temp-folder.ts';

const folder = tempFolder('open');
const at = (name: string) => path.join(folder, name);
const nativeBinding = sqliteBinding();
const bare = (file: string) =>
  new BetterSqlite(file, nativeBinding === undefined ? {} : { nativeBinding });

async function troubleOf(call: () => Promise<unknown>) {
  const thrown = await call().then(
    () => null,
    (e: unknown) => e,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
}

describe('a file that is no ledger', () => {
  it('is refused when it is not a database, and not touched', async () => {
    const file = at('letter.sqlite');
    writeFileSync(file, 'Dear customer, your board is ready.\n'.repeat(40));
    const before = readFileSync(file);
    const trouble = await troubleOf(() => openDatabase({ path: file }));
    expect(trouble).toMatchObject({ code: 'not-a-ledger', where: file });
    expect(trouble.todo).toMatch(/not touched/);
    expect(readFileSync(file)).toEqual(before);
  });

  it('is refused when it is a database of something else, and not touched', async () => {
    const file = at('other.sqlite');
    const other = bare(file);
    other.exec("create table contacts (name text); insert into contacts values ('A')");
    other.close();
    const before = readFileSync(file);
    const trouble = await troubleOf(() => openDatabase({ path: file }));
    expect(trouble.code).toBe('not-a-ledger');
    expect(readFileSync(file)).toEqual(before);
  });

  it('is refused when it is a folder', async () => {
    mkdirSync(at('folder.sqlite'));
    expect((await troubleOf(() => openDatabase({ path: at('folder.sqlite') }))).code).toBe(
      'not-a-ledger',
    );
  });

  it('is made anew when it is empty', async () => {
    writeFileSync(at('empty.sqlite'), '');
    const ledger = await openLedgerInThread({ path: at('empty.sqlite') });
    expect(await ledger.handlers.listJobs({ search: '', limit: 1 })).toEqual([]);
    await ledger.close();
  });
});

describe('a ledger that cannot be written', () => {
  it('is refused when the file is marked read-only', async () => {
    const file = at('read-only.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const before = readFileSync(file);
    chmodSync(file, 0o444);
    const trouble = await troubleOf(() => openDatabase({ path: file }));
    expect(trouble).toMatchObject({ code: 'ledger-read-only', where: file });
    expect(readFileSync(file)).toEqual(before);
    chmodSync(file, 0o644);
    await (await openLedgerInThread({ path: file })).close();
  });

  it('is refused when its folder is not there', async () => {
    const trouble = await troubleOf(() => openDatabase({ path: at('nowhere/ledger.sqlite') }));
    expect(trouble).toMatchObject({ code: 'ledger-read-only', where: at('nowhere') });
  });
});

describe('a ledger that is open elsewhere', () => {
  it('is refused to a second program, and opens once the first lets go', async () => {
    const file = at('busy.sqlite');
    const first = await openLedgerInThread({ path: file });
    await first.handlers.createJob(jobFields());
    const trouble = await troubleOf(() => openDatabase({ path: file }));
    expect(trouble).toMatchObject({ code: 'ledger-busy', where: file });
    await first.close();
    const second = await openLedgerInThread({ path: file });
    expect(await second.handlers.listJobs({ search: '', limit: 9 })).toHaveLength(1);
    await second.close();
  });
});

/** A disk of its own of two megabytes; null where this user may not mount one. */
function tinyDisk(name: string): { folder: string; letGo: () => void } | null {
  const place = at(name);
  mkdirSync(place);
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=2m', 'tmpfs', place], { stdio: 'ignore' });
  } catch {
    return null;
  }
  return { folder: place, letGo: () => execFileSync('umount', ['-l', place]) };
}

describe('a full disk', () => {
  it('is told to who appends; nothing committed is lost and waiting samples follow later', async (test) => {
    const disk = tinyDisk('tiny');
    if (disk === null) return test.skip('needs to mount a small disk, which this user may not');
    const file = path.join(disk.folder, 'ledger.sqlite');
    const ballast = path.join(disk.folder, 'ballast');
    try {
      const ledger = await openLedgerInThread({ path: file });
      const job = await ledger.handlers.createJob(jobFields());
      const run = await ledger.recorder.startRun(runStart({ jobId: job.id }));
      const append = (n: number) =>
        ledger.recorder.appendSupply({
          runId: run.id,
          // Noise that no codec packs: the disk fills within a few batches.
          columns: samples(1024, { fromTick: n * 1024 * 500, amps: () => Math.random() }),
        });
      await append(0);
      const readAll = async () =>
        ledger.handlers.readSamples({ id: run.id, fromTick: 0, toTick: 1e10, limit: 200_000 });
      expect((await readAll()).ticks).toHaveLength(1024);

      const room = statSync(file).size + statSync(`${file}-wal`).size;
      writeFileSync(ballast, Buffer.alloc(2 * 1024 * 1024 - room - 16_384));
      await append(1);
      const trouble = await troubleOf(readAll);
      expect(trouble).toMatchObject({ code: 'disk-full' });
      expect((await troubleOf(() => append(2))).code).toBe('disk-full');
      const refused = ledger.handlers.createJob(jobFields({ symptom: 'x'.repeat(4000) }));
      expect((await troubleOf(() => Promise.resolve(refused))).code).toBe('disk-full');
      expect(await ledger.handlers.listJobs({ search: '', limit: 9 })).toHaveLength(1);

      execFileSync('rm', [ballast]);
      await append(2);
      expect((await readAll()).ticks).toHaveLength(3 * 1024);
      await ledger.close();
      const again = bare(file);
      expect(again.pragma('integrity_check', { simple: true })).toBe('ok');
      again.close();
    } finally {
      disk.letGo();
    }
  });

  it('leaves no half ledger behind when there is no room for a new one', async (test) => {
    const disk = tinyDisk('tinier');
    if (disk === null) return test.skip('needs to mount a small disk, which this user may not');
    const file = path.join(disk.folder, 'ledger.sqlite');
    const ballast = path.join(disk.folder, 'ballast');
    try {
      writeFileSync(ballast, Buffer.alloc(2 * 1024 * 1024 - 65_536));
      expect((await troubleOf(() => openDatabase({ path: file }))).code).toBe('disk-full');
      execFileSync('rm', [ballast]);
      await (await openLedgerInThread({ path: file })).close();
      expect(existsSync(file)).toBe(true);
    } finally {
      disk.letGo();
    }
  });
});

describe('a damaged ledger', () => {
  it('is told as damaged, not overwritten', async () => {
    const file = at('damaged.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const bytes = readFileSync(file);
    // Page 2 onwards: the header still says that it is a ledger.
    bytes.fill(0xa5, 4096, 65_536);
    writeFileSync(file, bytes);
    const trouble = await troubleOf(async () => {
      const ledger = await openLedgerInThread({ path: file });
      await ledger.close();
    });
    expect(trouble.code).toBe('ledger-damaged');
    expect(readFileSync(file).subarray(4096, 65_536)).toEqual(bytes.subarray(4096, 65_536));
  });
});
