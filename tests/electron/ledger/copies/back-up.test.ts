import { execFileSync } from 'node:child_process';
import {
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  truncateSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { type Trouble, WakelineError } from '../../../../core/errors.ts';
import { takeRestored, waitingLedger } from '../../../../electron/ledger/copies/take-restored.ts';
import type { Ledger } from '../../../../electron/ledger/ledger-client.ts';
import { openLedgerInThread } from '../../../../electron/ledger/open-ledger-in-thread.ts';
import { hashOf, pictureFolderOf } from '../../../../electron/ledger/picture-folder.ts';
import { asideEntry } from '../../../support/aside-entry.ts';
import { fillLedger } from '../../../support/fill-ledger.ts';
import { ledgerRows, lookInto } from '../../../support/ledger-rows.ts';
import { jobFields, runStart, samples } from '../../../support/ledger-samples.ts';
import { openBare } from '../../../support/ledger-schema.ts';
import { openSeededLedger } from '../../../support/seed-ledger.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const folder = tempFolder('backup');
const at = (...names: string[]) => path.join(folder, ...names);
const open: Ledger[] = [];
afterAll(async () => {
  for (const ledger of open) await ledger.close().catch(() => {});
});
const clock = { ms: Date.UTC(2026, 2, 2, 8) };
const openAt = async (name: string) => {
  const ledger = await openLedgerInThread({
    path: at(name),
    now: () => clock.ms,
    app: '9.9.9',
    asideEntry,
  });
  open.push(ledger);
  return ledger;
};
const troubleOf = async (call: () => Promise<unknown>): Promise<Trouble> => {
  const thrown = await call().then(
    () => null,
    (e: unknown) => e,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
};
const backupsIn = (name: string) =>
  readdirSync(at(name)).filter((one) => /^wakeline-backup-/.test(one));

/** A picture file in a ledger's folder of pictures, named in its table. */
function addPicture(name: string, bytes: Buffer): string {
  const hash = hashOf(bytes);
  const file = path.join(pictureFolderOf(at(name)), hash.slice(0, 2), `${hash}.png`);
  mkdirSync(path.dirname(file), { recursive: true });
  writeFileSync(file, bytes);
  const sqlite = openBare(at(name));
  sqlite
    .prepare(
      "insert into picture_files (hash, type, bytes, width, height) values (?, 'image/png', ?, 1, 1)",
    )
    .run(hash, bytes.byteLength);
  sqlite.close();
  return hash;
}

describe('backing a ledger up', () => {
  it('copies it while it is being recorded to, reads the copy back and restores every row', async () => {
    const { ledger: first } = await openSeededLedger(at('busy.sqlite'));
    await first.close();
    fillLedger(at('busy.sqlite'), 6);
    const hash = addPicture('busy.sqlite', Buffer.from('an invented picture'));
    const ledger = await openAt('busy.sqlite');
    expect(await troubleOf(() => ledger.copies.backUp(null))).toMatchObject({
      code: 'folder-missing',
    });
    await ledger.copies.chooseFolder({ folder: at('backups') });
    const job = await ledger.handlers.createJob(jobFields());
    const run = await ledger.recorder.startRun(runStart({ jobId: job.id }));
    let isOver = false;
    let taken = 0;
    const recording = (async () => {
      while (!isOver) {
        await ledger.recorder.appendSupply({
          runId: run.id,
          columns: samples(40, { fromTick: taken * 500 }),
        });
        taken += 40;
        await new Promise((resolve) => setTimeout(resolve, 5));
      }
    })();
    const made = await ledger.copies.backUp(null);
    isOver = true;
    await recording;
    expect(made).toMatchObject({ pictures: 1, picturesLost: 0, isOther: false });
    expect(await ledger.copies.state(null)).toMatchObject({ last: made, failed: null, busy: null });
    // What was recorded meanwhile is in the ledger, whatever of it is in the copy.
    const read = await ledger.handlers.readSamples({
      id: run.id,
      fromTick: 0,
      toTick: 1e9,
      limit: 200_000,
    });
    expect(read.ticks).toHaveLength(taken);

    const restored = await ledger.copies.restore({ name: made.name, target: at('new.sqlite') });
    expect(restored).toMatchObject({ path: at('new.sqlite'), pictures: 1, startsAgain: false });
    const copy = ledgerRows(at('new.sqlite'), { withKept: true });
    const now = ledgerRows(at('busy.sqlite'), { withKept: true });
    // The copy is of the moment that it ended: all that was there before it began is in it.
    for (const table of ['jobs', 'readings', 'parts', 'outcomes', 'checklist_items']) {
      expect(copy[table], table).toEqual(now[table]);
    }
    const picture = path.join(pictureFolderOf(at('new.sqlite')), hash.slice(0, 2), `${hash}.png`);
    expect(hashOf(readFileSync(picture))).toBe(hash);
    expect(
      await troubleOf(() => ledger.copies.restore({ name: made.name, target: at('new.sqlite') })),
    ).toMatchObject({ code: 'file-not-written' });
    await ledger.close();
    const reopened = await openAt('new.sqlite');
    expect((await reopened.handlers.readJob({ id: job.id })).job.id).toBe(job.id);
    await reopened.close();
  });

  it('keeps the last few, and with them the pictures that they name', async () => {
    const ledger = await openAt('keep.sqlite');
    await ledger.close();
    const gone = addPicture('keep.sqlite', Buffer.from('soon deleted'));
    const again = await openAt('keep.sqlite');
    await again.copies.chooseFolder({ folder: at('kept') });
    await again.copies.changePlan({ keep: 1, everyDays: 1 });
    const first = await again.copies.backUp(null);
    await again.close();
    const sqlite = openBare(at('keep.sqlite'));
    sqlite.exec('delete from picture_files');
    sqlite.close();
    mkdirSync(at('kept', '.wakeline-backup-20200101-000000.part'));
    const third = await openAt('keep.sqlite');
    const names: string[] = [];
    for (let i = 0; i < 2; i += 1) {
      clock.ms += 60_000;
      names.push((await third.copies.backUp(null)).name);
    }
    expect(backupsIn('kept').sort()).toEqual(names.slice(1));
    expect(names).not.toContain(first.name);
    expect(existsSync(at('kept', 'pictures', gone.slice(0, 2), `${gone}.png`))).toBe(false);
    expect(readdirSync(at('kept')).filter((one) => one.endsWith('.part'))).toEqual([]);
    expect((await third.copies.backups(null)).map(({ name }) => name)).toEqual(
      names.slice(1).reverse(),
    );
    await third.close();
  });

  it('is due by the plan, and only then', async () => {
    const ledger = await openAt('due.sqlite');
    expect(await ledger.copies.backUpWhenDue(null)).toBeNull();
    await ledger.copies.chooseFolder({ folder: at('due') });
    expect(await ledger.copies.backUpWhenDue(null)).not.toBeNull();
    clock.ms += 3_600_000;
    expect(await ledger.copies.backUpWhenDue(null)).toBeNull();
    clock.ms += 86_400_000;
    expect(await ledger.copies.backUpWhenDue(null)).not.toBeNull();
    await ledger.close();
  });

  it('tells of a folder that is gone, of one that is not the chosen one, and of a full disk', async (test) => {
    const ledger = await openAt('gone.sqlite');
    await ledger.close();
    fillLedger(at('gone.sqlite'), 3);
    const filled = await openAt('gone.sqlite');
    await filled.copies.chooseFolder({ folder: at('drive') });
    renameSync(at('drive'), at('pulled'));
    const missing = await troubleOf(() => filled.copies.backUp(null));
    expect(missing).toMatchObject({ code: 'folder-missing', where: at('drive') });
    expect(missing.todo).toMatch(/Plug the drive in/);
    expect((await filled.copies.state(null)).failed?.trouble).toEqual(missing);
    // An empty mount point is no drive.
    mkdirSync(at('drive'));
    expect((await troubleOf(() => filled.copies.backUp(null))).what).toMatch(
      /its mark is not in it/,
    );
    expect(readdirSync(at('drive'))).toEqual([]);

    mkdirSync(at('tiny'));
    try {
      execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=1m', 'tmpfs', at('tiny')], {
        stdio: 'ignore',
      });
    } catch {
      return test.skip('needs to mount a small disk, which this user may not');
    }
    try {
      await filled.copies.chooseFolder({ folder: at('tiny') });
      const full = await troubleOf(() => filled.copies.backUp(null));
      expect(full).toMatchObject({ code: 'disk-full', where: at('tiny') });
      expect(readdirSync(at('tiny')).filter((one) => one.includes('backup-2'))).toEqual([]);
    } finally {
      execFileSync('umount', ['-l', at('tiny')]);
    }
    await filled.close();
  });

  it('does not restore what is damaged, and says so', async () => {
    const ledger = await openAt('hurt.sqlite');
    await ledger.handlers.createJob(jobFields());
    await ledger.copies.chooseFolder({ folder: at('hurt') });
    const { name } = await ledger.copies.backUp(null);
    const copy = at('hurt', name, 'ledger.sqlite');
    truncateSync(copy, statSync(copy).size - 4096);
    const trouble = await troubleOf(() =>
      ledger.copies.restore({ name, target: at('from-hurt.sqlite') }),
    );
    expect(trouble).toMatchObject({ code: 'bad-backup' });
    expect(existsSync(at('from-hurt.sqlite'))).toBe(false);
    expect(existsSync(at('from-hurt.sqlite.part'))).toBe(false);
    expect(
      await troubleOf(() => ledger.copies.restore({ name: '../etc', target: null })),
    ).toMatchObject({
      code: 'not-found',
    });
    await ledger.close();
  });
});

describe('a backup that takes the ledger’s place', () => {
  it('does so at the next start, keeps the ledger of today, and makes up for a killed start', async () => {
    const ledger = await openAt('place.sqlite');
    const early = await ledger.handlers.createJob(jobFields({ symptom: 'early' }));
    await ledger.copies.chooseFolder({ folder: at('place') });
    const { name } = await ledger.copies.backUp(null);
    const late = await ledger.handlers.createJob(jobFields({ symptom: 'late' }));
    expect(await ledger.copies.restore({ name, target: null })).toMatchObject({
      startsAgain: true,
    });
    await ledger.close();
    expect(existsSync(waitingLedger(at('place.sqlite')))).toBe(true);

    const kept = takeRestored(at('place.sqlite'), clock.ms);
    expect(takeRestored(at('place.sqlite'), clock.ms)).toBeNull();
    const back = await openAt('place.sqlite');
    const ids = (await back.handlers.listJobs({ search: '', limit: 9 })).map(({ id }) => id);
    expect(ids).toEqual([early.id]);
    await back.close();
    const today = lookInto(kept!, (sqlite) => sqlite.prepare('select id from jobs').pluck().all());
    expect(today).toContain(late.id);

    // Killed between the two steps: the old one is away and the new one not there yet.
    renameSync(at('place.sqlite'), waitingLedger(at('place.sqlite')));
    rmSync(`${at('place.sqlite')}-wal`, { force: true });
    expect(takeRestored(at('place.sqlite'), clock.ms + 1000)).toBeNull();
    expect(existsSync(at('place.sqlite'))).toBe(true);
  });
});
