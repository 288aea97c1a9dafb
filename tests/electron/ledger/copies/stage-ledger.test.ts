import { copyFileSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { beforeAll, describe, expect, it } from 'vitest';
import type { ExportManifest } from '../../../../core/copies/export-manifest.ts';
import { type Trouble, WakelineError } from '../../../../core/errors.ts';
import { exportLedger } from '../../../../electron/ledger/copies/export-ledger.ts';
import { stageLedger } from '../../../../electron/ledger/copies/stage-ledger.ts';
import { openLedgerInThread } from '../../../../electron/ledger/open-ledger-in-thread.ts';
import { ledgerRows } from '../../../support/ledger-rows.ts';
import { openSeededLedger } from '../../../support/seed-ledger.ts';
import { tempFolder } from '../../../support/temp-folder.ts';

const folder = tempFolder('stage');
const at = (name: string) => path.join(folder, name);
const tell = () => {};
const manifestOf = (exported: string): ExportManifest =>
  JSON.parse(readFileSync(path.join(exported, 'manifest.json'), 'utf8')) as ExportManifest;

describe('a ledger of every version that was shipped', () => {
  const shipped = path.resolve(import.meta.dirname, '../../../../sample-data/databases');
  it.each(readdirSync(shipped).sort())(
    'is read from its own export, and from its file: %s',
    async (name) => {
      const older = at(name);
      copyFileSync(path.join(shipped, name), older);
      const source = at(`${name}-exported`);
      await exportLedger({
        snapshot: older,
        pictures: at('none'),
        folder: source,
        app: '0.0.1',
        ledgerId: 'older',
        madeAt: 0,
        tell,
      });
      await stageLedger({ source, staged: at(`${name}-staged`), tell });
      await stageLedger({ source: older, staged: at(`${name}-direct`), tell });
      // The same file opened as a ledger holds the same: no way in loses anything.
      await (await openLedgerInThread({ path: older })).close();
      const rows = ledgerRows(older, { withKept: true });
      expect(rows.jobs?.length).toBeGreaterThanOrEqual(5);
      expect(ledgerRows(at(`${name}-staged`), { withKept: true })).toEqual(rows);
      expect(ledgerRows(at(`${name}-direct`), { withKept: true })).toEqual(rows);
    },
  );
});

describe('an export that is not what it was', () => {
  const exported = at('exported');
  let refusals = 0;
  const refused = async (source: string): Promise<Trouble> => {
    refusals += 1;
    const thrown = await stageLedger({ source, staged: at(`refused-${refusals}`), tell }).then(
      () => null,
      (e: unknown) => e,
    );
    expect(thrown).toBeInstanceOf(WakelineError);
    return (thrown as WakelineError).trouble;
  };
  beforeAll(async () => {
    const { ledger } = await openSeededLedger(at('source.sqlite'));
    await ledger.close();
    await exportLedger({
      snapshot: at('source.sqlite'),
      pictures: at('none'),
      folder: exported,
      app: '0.0.1',
      ledgerId: 'this',
      madeAt: 0,
      tell,
    });
  });

  const broken = (name: string): string => {
    const target = at(name);
    rmSync(target, { recursive: true, force: true });
    mkdirSync(path.join(target, 'tables'), { recursive: true });
    for (const { file } of manifestOf(exported).tables) {
      copyFileSync(path.join(exported, file), path.join(target, file));
    }
    copyFileSync(path.join(exported, 'manifest.json'), path.join(target, 'manifest.json'));
    return target;
  };
  const change = (target: string, by: (manifest: Record<string, unknown>) => void) => {
    const manifest = manifestOf(target) as unknown as Record<string, unknown>;
    by(manifest);
    writeFileSync(path.join(target, 'manifest.json'), JSON.stringify(manifest));
  };
  /** Sets a table's hash to null: whoever changes a file by hand says so. */
  const onPurpose = (target: string, table: string) =>
    change(target, (manifest) => {
      const tables = manifest.tables as { table: string; sha256: string | null }[];
      tables.find((one) => one.table === table)!.sha256 = null;
    });

  it('is refused by file and line, and nothing of it is taken in', async () => {
    const line = broken('bad-line');
    const jobs = path.join(line, 'tables/jobs.jsonl');
    const lines = readFileSync(jobs, 'utf8').split('\n');
    writeFileSync(jobs, [...lines.slice(0, 2), '{"id": "x", ', ...lines.slice(3)].join('\n'));
    expect(await refused(line)).toMatchObject({
      code: 'bad-export',
      where: 'tables/jobs.jsonl, line 3',
    });

    const field = broken('odd-field');
    writeFileSync(
      path.join(field, 'tables/parts.jsonl'),
      readFileSync(path.join(field, 'tables/parts.jsonl'), 'utf8').replace('"rail":', '"rale":'),
    );
    expect((await refused(field)).what).toMatch(/no field rale in parts/);

    const hash = broken('wrong-hash');
    const notes = path.join(hash, 'tables/readings.jsonl');
    writeFileSync(notes, readFileSync(notes, 'utf8').replace('0.31', '0.13'));
    expect(await refused(hash)).toMatchObject({ code: 'bad-export', where: notes });
    onPurpose(hash, 'readings');
    await stageLedger({ source: hash, staged: at('on-purpose'), tell });
    expect(ledgerRows(at('on-purpose')).readings?.join()).toContain('0.13');

    const short = broken('short');
    const runs = path.join(short, 'tables/runs.jsonl');
    writeFileSync(runs, readFileSync(runs, 'utf8').split('\n').slice(1).join('\n'));
    expect((await refused(short)).what).toMatch(/holds 4 rows; the manifest says 5/);

    const gone = broken('gone');
    rmSync(path.join(gone, 'tables/tracks.jsonl'));
    expect((await refused(gone)).what).toMatch(/is not there/);

    const loose = broken('loose');
    const kept = readFileSync(path.join(loose, 'tables/jobs.jsonl'), 'utf8').split('\n').slice(1);
    writeFileSync(path.join(loose, 'tables/jobs.jsonl'), kept.join('\n'));
    onPurpose(loose, 'jobs');
    expect((await refused(loose)).what).toMatch(/belongs to a row of jobs that is not there/);

    expect(await refused(at('nowhere'))).toMatchObject({ code: 'bad-export' });
    mkdirSync(at('no-manifest'));
    expect((await refused(at('no-manifest'))).what).toMatch(/no manifest/);
  });

  it('is refused with what to do when it is from a newer app or names files elsewhere', async () => {
    const schema = broken('newer-schema');
    change(schema, (manifest) => {
      manifest.schema = '9999_from_tomorrow';
    });
    expect(await refused(schema)).toMatchObject({ code: 'export-newer' });
    const format = broken('newer-format');
    change(format, (manifest) => {
      manifest.format = 2;
    });
    const trouble = await refused(format);
    expect(trouble.code).toBe('export-newer');
    expect(trouble.todo).toMatch(/newest version/);
    const outside = broken('outside');
    change(outside, (manifest) => {
      (manifest.tables as { file: string }[])[0]!.file = '../../etc/passwd';
    });
    expect((await refused(outside)).what).toMatch(/outside of its folder/);
    const odd = broken('no-rows');
    change(odd, (manifest) => {
      delete (manifest.tables as { rows?: number }[])[0]!.rows;
    });
    expect((await refused(odd)).where).toMatch(/tables\.0\.rows/);
  });
});
