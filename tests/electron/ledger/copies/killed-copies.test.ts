import { type ChildProcess, spawn } from 'node:child_process';
import { copyFileSync, existsSync, mkdirSync, readdirSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { openLedgerInThread } from '../../../../electron/ledger/open-ledger-in-thread.ts';
import { asideEntry } from '../../../support/aside-entry.ts';
import { fillLedger } from '../../../support/fill-ledger.ts';
import { ledgerRows } from '../../../support/ledger-rows.ts';
import { openSeededLedger } from '../../../support/seed-ledger.ts';
import { tempFolder } from '../../../support/temp-folder.ts';
import { runnable } from '../../../support/worker-entry.ts';

const folder = tempFolder('killed');
const at = (...names: string[]) => path.join(folder, ...names);
const script = fileURLToPath(await runnable('tests/support/copying-process.ts'));
const worker = (await runnable('electron/ledger/worker.ts')).href;

/** Starts the process and kills it, without a chance to tidy up, at the first line that is like this. */
async function killAt(line: RegExp, args: readonly string[], afterMs = 0): Promise<boolean> {
  const child: ChildProcess = spawn(
    process.execPath,
    [script, args[0]!, worker, ...args.slice(1)],
    {
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  );
  const gone = new Promise((resolve) => child.on('exit', resolve));
  let wasSeen = false;
  for await (const said of createInterface({ input: child.stdout! })) {
    if (!line.test(said) || wasSeen) continue;
    wasSeen = true;
    if (afterMs > 0) await new Promise((resolve) => setTimeout(resolve, afterMs));
    child.kill('SIGKILL');
  }
  await gone;
  return wasSeen;
}

async function filled(name: string, megabytes: number): Promise<string> {
  const { ledger } = await openSeededLedger(at(name));
  await ledger.close();
  fillLedger(at(name), megabytes);
  return at(name);
}

describe('a process that is killed', { timeout: 60_000 }, () => {
  it('in the middle of a backup leaves no backup that counts, and the next one clears up', async () => {
    const file = await filled('backup.sqlite', 8);
    mkdirSync(at('backups'));
    const first = await openLedgerInThread({ path: file, asideEntry });
    await first.copies.chooseFolder({ folder: at('backups') });
    await first.close();
    const before = ledgerRows(file, { withKept: true });
    expect(await killAt(/^far copying the ledger [1-9]/, [file, 'backup'])).toBe(true);
    expect(readdirSync(at('backups')).filter((one) => one.startsWith('wakeline-backup-'))).toEqual(
      [],
    );
    expect(ledgerRows(file, { withKept: true })).toEqual(before);
    const ledger = await openLedgerInThread({ path: file, asideEntry });
    expect(await ledger.copies.backups(null)).toEqual([]);
    const made = await ledger.copies.backUp(null);
    expect(readdirSync(at('backups')).filter((one) => one.includes('backup-2'))).toEqual([
      made.name,
    ]);
    await ledger.close();
  });

  it('in the middle of an export leaves no folder of that name', async () => {
    const file = await filled('export.sqlite', 5);
    expect(await killAt(/^far (jobs|samples|readings)/, [file, 'export', at('exported')])).toBe(
      true,
    );
    expect(existsSync(at('exported'))).toBe(false);
    const ledger = await openLedgerInThread({ path: file, asideEntry });
    expect(existsSync(`${file}.exporting`)).toBe(false);
    await ledger.copies.exportTo({ folder: at('exported') });
    expect(existsSync(at('exported', 'manifest.json'))).toBe(true);
    expect(readdirSync(folder).filter((one) => one.startsWith('.exported'))).toEqual([]);
    await ledger.close();
  });

  it('in the middle of a merge leaves the ledger as it was, or as the whole merge makes it', async () => {
    const from = await filled('other.sqlite', 3);
    const base = await filled('base.sqlite', 1);
    const whole = at('whole.sqlite');
    copyFileSync(base, whole);
    const done = await openLedgerInThread({ path: whole, asideEntry });
    const { token } = await done.copies.plan({ source: from });
    await done.copies.merge({ token });
    await done.close();
    const [before, after] = [ledgerRows(base), ledgerRows(whole)];
    let early = 0;
    for (const [i, waitMs] of [0, 120].entries()) {
      const file = at(`killed-${i}.sqlite`);
      copyFileSync(base, file);
      expect(await killAt(/^far taking it in/, [file, 'merge', from], waitMs)).toBe(true);
      const ledger = await openLedgerInThread({ path: file, asideEntry });
      expect(existsSync(`${file}.merging`)).toBe(false);
      await ledger.close();
      const rows = ledgerRows(file);
      const isBefore = rows.jobs?.length === before.jobs?.length;
      early += isBefore ? 1 : 0;
      expect(rows).toEqual(isBefore ? before : after);
    }
    expect(early).toBeGreaterThan(0);
  });
});
