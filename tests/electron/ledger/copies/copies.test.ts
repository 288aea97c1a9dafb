import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { parse } from 'csv-parse/sync';
import { afterAll, describe, expect, it } from 'vitest';
import type { ExportManifest } from '../../../../core/copies/export-manifest.ts';
import { type Trouble, WakelineError } from '../../../../core/errors.ts';
import type { Ledger } from '../../../../electron/ledger/ledger-client.ts';
import { openLedgerInThread } from '../../../../electron/ledger/open-ledger-in-thread.ts';
import { asideEntry } from '../../../support/aside-entry.ts';
import { ledgerRows, lookInto } from '../../../support/ledger-rows.ts';
import { jobFields } from '../../../support/ledger-samples.ts';
import { openSeededLedger } from '../../../support/seed-ledger.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const folder = tempFolder('copies');
const at = (...names: string[]) => path.join(folder, ...names);
const open: Ledger[] = [];
afterAll(async () => {
  for (const ledger of open) await ledger.close().catch(() => {});
});

const openAt = async (name: string): Promise<Ledger> => {
  const ledger = await openLedgerInThread({ path: at(name), app: '9.9.9', asideEntry });
  open.push(ledger);
  return ledger;
};

async function seeded(name: string) {
  const made = await openSeededLedger(at(name), asideEntry);
  open.push(made.ledger);
  return made;
}

const troubleOf = async (call: () => Promise<unknown>): Promise<Trouble> => {
  const thrown = await call().then(
    () => null,
    (e: unknown) => e,
  );
  expect(thrown).toBeInstanceOf(WakelineError);
  return (thrown as WakelineError).trouble;
};

const manifestOf = (exported: string): ExportManifest =>
  JSON.parse(readFileSync(path.join(exported, 'manifest.json'), 'utf8')) as ExportManifest;

const takeIn = async (ledger: Ledger, source: string) => {
  const { token, report } = await ledger.copies.plan({ source });
  const done = await ledger.copies.merge({ token });
  expect(done.report).toEqual(report);
  return done;
};

/** An export of the invented jobs that the tests below read and break copies of. */
const source = await seeded('source.sqlite');
const exported = at('exported');
const done = await source.ledger.copies.exportTo({ folder: exported });

describe('exporting a whole ledger', () => {
  it('writes every table with its rows, size and hash in the manifest', () => {
    const manifest = manifestOf(exported);
    expect(done).toMatchObject({ folder: exported, runs: 5 });
    const rows = ledgerRows(at('source.sqlite'));
    expect(manifest.tables.map(({ table }) => table).sort()).toEqual(Object.keys(rows).sort());
    for (const { table, file, rows: count, bytes, sha256 } of manifest.tables) {
      const text = readFileSync(path.join(exported, file));
      expect(count, table).toBe(rows[table]?.length);
      expect(text.byteLength).toBe(bytes);
      expect(createHash('sha256').update(text).digest('hex')).toBe(sha256);
      for (const line of text.toString('utf8').split('\n').filter(Boolean)) JSON.parse(line);
    }
    expect(readdirSync(folder).filter((name) => name.endsWith('.part'))).toEqual([]);
  });

  it('says in its README what every field is, and of which version it is', () => {
    const readme = readFileSync(path.join(exported, 'README.md'), 'utf8');
    const columns = lookInto(at('source.sqlite'), (sqlite) =>
      sqlite.prepare<[], string>("select name from pragma_table_info('readings')").pluck().all(),
    );
    for (const column of columns) expect(readme).toContain(`| ${column}`);
    expect(readme).toContain('| set_v | double precision | volts |');
    expect(readme).toContain('| started_at | bigint | UTC, milliseconds since 1970-01-01 |');
    expect(readme).toContain(manifestOf(exported).schema);
  });

  it('writes readings and samples as CSV that another library reads back exactly', async () => {
    const readings = parse(readFileSync(path.join(exported, 'csv/readings.csv')), {
      columns: true,
    }) as Record<string, string>[];
    const rows = lookInto(at('source.sqlite'), (sqlite) =>
      sqlite
        .prepare<[], { id: string; value: number | null; place: string }>(
          'select id, value, place from readings order by id',
        )
        .all(),
    );
    expect(
      readings.map((one) => [
        one.reading_id,
        one.value === '' ? null : Number(one.value),
        one.place,
      ]),
    ).toEqual(rows.map(({ id, value, place }) => [id, value, place]));
    const run = source.seeded.runs.before;
    const samples = parse(readFileSync(path.join(exported, `csv/runs/${run}.csv`)), {
      columns: true,
    }) as Record<string, string>[];
    const read = await source.ledger.handlers.readSamples({
      id: run,
      fromTick: 0,
      toTick: 1e12,
      limit: 20_000,
    });
    expect(samples.map((one) => Number(one.amps_A))).toEqual(
      // A sample may be minus nothing; in text it is nothing.
      [...read.amps].map((amps) => amps + 0),
    );
  });
});

describe('taking an export in', () => {
  it('gives an empty ledger every row, chunks byte for byte, and exports to the same hashes again', async () => {
    const empty = await openAt('empty.sqlite');
    const { report } = await takeIn(empty, exported);
    expect(report).toMatchObject({ jobsAdded: 5, runsAdded: 5, renumbered: [], told: [] });
    expect(ledgerRows(at('empty.sqlite'))).toEqual(ledgerRows(at('source.sqlite')));
    // Numbers, links and what a search finds are the ledger's own: they come out alike here.
    const lines = (one: Ledger) => one.handlers.listJobs({ search: 'osprey tea', limit: 9 });
    expect(await lines(empty)).toEqual(await lines(source.ledger));
    await empty.copies.exportTo({ folder: at('again') });
    const hashes = (of: string) =>
      Object.fromEntries(manifestOf(of).tables.map(({ table, sha256 }) => [table, sha256]));
    expect(hashes(at('again'))).toEqual(hashes(exported));
  });

  it('changes nothing the second time, and says so', async () => {
    const empty = await openAt('twice.sqlite');
    await takeIn(empty, exported);
    const before = ledgerRows(at('twice.sqlite'), { withKept: true });
    const { report } = await takeIn(empty, exported);
    expect(report).toMatchObject({ tables: [], jobsAdded: 0, jobsChanged: 0, runsAdded: 0 });
    expect(ledgerRows(at('twice.sqlite'), { withKept: true })).toEqual(before);
  });

  it('tells what it would do before it does it, and dropping the plan leaves nothing', async () => {
    const ledger = await openAt('plan.sqlite');
    const { token, report } = await ledger.copies.plan({ source: exported });
    expect(report.jobsAdded).toBe(5);
    expect(await ledger.handlers.listJobs({ search: '', limit: 9 })).toEqual([]);
    await ledger.copies.drop({ token });
    expect(existsSync(at('plan.sqlite.merging'))).toBe(false);
    expect(await troubleOf(() => ledger.copies.merge({ token }))).toMatchObject({
      code: 'not-found',
    });
  });
});

describe('an export that cannot be read', () => {
  it('is refused through the ledger as it is by the reader, and nothing of it is taken in', async () => {
    const ledger = await openAt('refusing.sqlite');
    await ledger.handlers.createJob(jobFields());
    const before = ledgerRows(at('refusing.sqlite'), { withKept: true });
    writeFileSync(at('letter.txt'), 'Dear customer');
    const refused = await troubleOf(() => ledger.copies.plan({ source: at('letter.txt') }));
    expect(refused).toMatchObject({ code: 'not-a-ledger', where: at('letter.txt') });
    expect(existsSync(at('refusing.sqlite.merging'))).toBe(false);
    expect(ledgerRows(at('refusing.sqlite'), { withKept: true })).toEqual(before);
  });
});

describe('one thing at a time', () => {
  it('refuses a second piece of work, and calls the first off on request', async () => {
    const ledger = await openAt('busy.sqlite');
    await ledger.handlers.createJob(jobFields());
    const first = ledger.copies.plan({ source: exported });
    expect(await troubleOf(() => ledger.copies.exportTo({ folder: at('never') }))).toMatchObject({
      code: 'ledger-busy',
    });
    const stopped = troubleOf(() => first);
    expect(await ledger.copies.cancel(null)).toBe(true);
    expect((await stopped).code).toBe('cancelled');
    expect(existsSync(at('busy.sqlite.merging'))).toBe(false);
    expect((await ledger.copies.state(null)).busy).toBeNull();
  });
});
