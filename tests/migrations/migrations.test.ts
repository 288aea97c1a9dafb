import { copyFileSync, existsSync, readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { sql } from 'kysely';
import type { Migration } from 'kysely/migration';
import { describe, expect, it } from 'vitest';
import { WakelineError } from '../../core/errors.ts';
import { openDatabase } from '../../electron/ledger/open-database.ts';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { migrations } from '../../migrations/migrations.ts';
import { openBare, schemaOf } from '../support/ledger-schema.ts';
import { openSeededLedger } from '../support/seed-ledger.ts';
import { tempFolder } from '../support/temp-folder.ts';

const root = path.resolve(import.meta.dirname, '../..');
const folder = tempFolder('migrations');
const at = (name: string) => path.join(folder, name);
const names = Object.keys(migrations);

const rows = (file: string) => {
  const sqlite = openBare(file, { readonly: true });
  const tables = sqlite
    .prepare<[], string>(
      "select name from sqlite_master where type = 'table' and name not like 'sqlite_%' order by name",
    )
    .pluck()
    .all();
  const all = Object.fromEntries(
    tables.map((table) => [table, sqlite.prepare(`select * from "${table}"`).all()]),
  );
  sqlite.close();
  return all;
};

async function troubleOf(call: () => Promise<unknown>) {
  const thrown = await call().then(
    () => null,
    (e: unknown) => e,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
}

describe('the migrations', () => {
  it('are numbered without a gap, one file each, and none is left out of the list', () => {
    expect(names.map((name) => name.slice(0, 5))).toEqual(
      names.map((_, i) => `${String(i + 1).padStart(4, '0')}_`),
    );
    const files = readdirSync(path.join(root, 'migrations')).filter((f) => /^\d/.test(f));
    expect(files.sort()).toEqual(names.map((name) => `${name}.ts`));
  });

  it('go forward only', () => {
    expect(names.filter((name) => 'down' in migrations[name]!)).toEqual([]);
  });

  it('make the schema that is written down', async () => {
    const { sqlite, db } = await openDatabase({ path: at('new.sqlite') });
    await expect(schemaOf(sqlite).join(';\n')).toMatchFileSnapshot('./schema.snapshot.sql');
    await db.destroy();
  });

  it('leave alone a ledger that is up to date: no backup, no change', async () => {
    const file = at('current.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const before = readFileSync(file);
    const { backup, db } = await openDatabase({ path: file });
    expect(backup).toBeNull();
    await db.destroy();
    expect(readFileSync(file)).toEqual(before);
  });
});

describe('a ledger of every version that was shipped', () => {
  it.each(names)('opens after %s with everything in it', async (name) => {
    const shipped = path.join(root, 'sample-data/databases', `${name}.sqlite`);
    expect(existsSync(shipped), `${shipped} is missing`).toBe(true);
    const file = at(`${name}.sqlite`);
    copyFileSync(shipped, file);
    const ledger = await openLedgerInThread({ path: file });
    const lines = await ledger.handlers.listJobs({ search: '', limit: 500 });
    expect(lines.map((line) => line.number)).toEqual([5, 4, 3, 2, 1]);
    const repaired = await ledger.handlers.readJob({ id: lines[4]!.id });
    expect(repaired.parts.map((part) => part.action)).toEqual(['lifted', 'fitted']);
    expect(repaired.job.outcome?.verdict).toBe('wakes');
    expect(repaired.readings.length).toBeGreaterThan(5);
    const [before, after] = repaired.runs;
    expect([before?.role, after?.role]).toEqual(['before', 'after']);
    for (const run of repaired.runs) {
      const kept = await ledger.handlers.readSamples({
        id: run.id,
        fromTick: 0,
        toTick: 1e9,
        limit: 200_000,
      });
      expect(kept.ticks.length).toBe(run.samples);
      const { report } = await ledger.handlers.readRun({ id: run.id });
      expect(report.stages.length).toBeGreaterThan(0);
    }
    await ledger.close();
    const sqlite = openBare(file);
    expect(sqlite.pragma('integrity_check', { simple: true })).toBe('ok');
    expect(schemaOf(sqlite).join(';\n')).toBe(
      readFileSync(path.join(import.meta.dirname, 'schema.snapshot.sql'), 'utf8'),
    );
    sqlite.close();
  });
});

describe('a step to a later version', () => {
  const addColumn: Migration = {
    async up(db) {
      await db.schema.alterTable('jobs').addColumn('shelf', 'text').execute();
    },
  };
  const breaksHalfWay: Migration = {
    async up(db) {
      await db.schema.createTable('shelves').addColumn('id', 'text').execute();
      await sql`update jobs set symptom = 'lost'`.execute(db);
      await sql`insert into nowhere values (1)`.execute(db);
    },
  };

  it('keeps a whole copy of the file as it was before', async () => {
    const file = at('backed-up.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const before = rows(file);
    const next = { ...migrations, '9001_add_shelf': addColumn };
    const { backup, db } = await openDatabase({ path: file, migrations: next });
    await db.destroy();
    expect(backup).toBe(`${file}.before-9001_add_shelf.backup`);
    expect(rows(backup!)).toEqual(before);
    const jobs = rows(file).jobs as { shelf: unknown }[];
    expect(jobs.map((job) => job.shelf)).toEqual(jobs.map(() => null));
  });

  it('that fails half-way leaves nothing behind, and passes when it is tried again', async () => {
    const file = at('half.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const before = rows(file);
    const broken = {
      ...migrations,
      '9001_add_shelf': addColumn,
      '9002_add_shelves': breaksHalfWay,
    };
    const trouble = await troubleOf(() => openDatabase({ path: file, migrations: broken }));
    expect(trouble).toMatchObject({
      code: 'migration-failed',
      where: expect.stringContaining(file),
    });
    expect(trouble.what).toContain('nowhere');
    const { kysely_migration_lock: _, ...after } = rows(file);
    const { kysely_migration_lock: __, ...was } = before;
    expect(after).toEqual(was);
    expect(rows(`${file}.before-9001_add_shelf.backup`)).toEqual(before);

    const mended: Migration = {
      async up(db) {
        await db.schema.createTable('shelves').addColumn('id', 'text').execute();
      },
    };
    const next = { ...broken, '9002_add_shelves': mended };
    const { db } = await openDatabase({ path: file, migrations: next });
    await db.destroy();
    expect(rows(file).shelves).toEqual([]);
    const still = await openLedgerInThread({ path: file, migrations: next });
    expect(await still.handlers.listJobs({ search: '', limit: 9 })).toHaveLength(5);
    await still.close();
  });

  it('is refused to an older app in plain words, and the file is not changed', async () => {
    const file = at('newer.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    const next = { ...migrations, '9001_add_shelf': addColumn };
    await (await openDatabase({ path: file, migrations: next })).db.destroy();
    const before = readFileSync(file);
    const trouble = await troubleOf(() => openDatabase({ path: file }));
    expect(trouble).toEqual({
      code: 'ledger-newer',
      what: 'This ledger was written by a newer version of the app',
      where: file,
      todo: 'Install the newest version and open it with that. The file was not changed.',
    });
    expect(readFileSync(file)).toEqual(before);
  });
});
