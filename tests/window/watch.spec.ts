import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, readdirSync, readFileSync, readlinkSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { chromium, expect, type Page, test } from '@playwright/test';
import { keepAddresses } from '../../electron/bench/remembered-addresses.ts';
import { readyApp } from '../../electron/runtime/ready.ts';
import { readWatchNote, watchNoteFile } from '../../electron/watch/watch-note-file.ts';
import { mustAsk } from '../support/ask-app.ts';
import { fuseElectron } from '../support/fused-electron.ts';
import { launchApp } from '../support/launch-app.ts';
import { type PretendProcess, startPretend } from '../support/pretend-process.ts';
import { msUntilOff, switchings } from '../support/watch-off.ts';

const WITHIN_MS = 1000;
let pretend: PretendProcess;
let dataFolder: string;

test.beforeEach(async () => {
  pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
  dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-watch-'));
  const supply = {
    by: 'serial',
    path: path.join(pretend.folder, 'supply'),
    baud: 115_200,
  } as const;
  keepAddresses(path.join(dataFolder, 'instruments.json'), { supply, meter: null });
});

test.afterEach(async () => {
  await pretend.stop();
  rmSync(dataFolder, { recursive: true, force: true });
});

async function switchOn(page: Page): Promise<void> {
  const state = () => mustAsk(page, 'benchState', {});
  await expect.poll(async () => (await state()).supply.link, { timeout: 20_000 }).toBe('live');
  await expect.poll(async () => (await state()).watcherReady, { timeout: 20_000 }).toBe(true);
  await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
  await mustAsk(page, 'outputOn', {});
  expect(await switchings(pretend)).toEqual(['on']);
  // The run is begun and on disk by then.
  await page.waitForTimeout(1000);
}

const noted = () => readWatchNote(watchNoteFile(dataFolder));

test('the real app, killed: its watcher switches off, and the next start says so', async () => {
  const first = await launchApp({ dataFolder });
  await switchOn(first.page);
  first.app.process().kill('SIGKILL');
  expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
  await expect.poll(() => noted()?.isDone).toBe(true);
  const { runId } = noted()!;
  const second = await launchApp({ dataFolder });
  await expect(second.page.getByTestId('alarm')).toContainText('The app ended while power was on');
  const { report } = await mustAsk(second.page, 'readRun', { id: runId! });
  expect(report.marks.map(({ text }) => text).join('\n')).toContain('read back off');
  await second.close();
});

test('the real app, stopped: its watcher switches off while the port is still held', async () => {
  const first = await launchApp({ dataFolder });
  await switchOn(first.page);
  first.app.process().kill('SIGSTOP');
  expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
  first.app.process().kill('SIGCONT');
  await expect(first.page.getByTestId('alarm')).toContainText('The app hung');
  await first.close();
});

/** Every process whose working files or command line name this data folder. */
function processesOn(folder: string): number[] {
  return readdirSync('/proc')
    .filter((name) => /^\d+$/.test(name))
    .filter((pid) => {
      try {
        return readFileSync(`/proc/${pid}/cmdline`, 'utf8').includes(folder);
      } catch {
        return false;
      }
    })
    .map(Number);
}

test('fused as a package is, without run-as-node, the watcher works all the same', async () => {
  test.skip(process.platform !== 'linux', 'copies an Electron the way it lies on Linux');
  const ready = await readyApp(() => {});
  const fused = await fuseElectron(ready.electron.path);
  let app: ChildProcess | null = null;
  try {
    app = spawn(
      fused.path,
      [...ready.args, `--user-data-dir=${dataFolder}`, '--remote-debugging-port=0'],
      { stdio: 'ignore', env: { ...process.env, ...ready.env } },
    );
    const portFile = path.join(dataFolder, 'DevToolsActivePort');
    await expect.poll(() => existsSync(portFile), { timeout: 20_000 }).toBe(true);
    const port = readFileSync(portFile, 'utf8').split('\n')[0];
    const browser = await chromium.connectOverCDP(`http://127.0.0.1:${port}`);
    const pages = () => browser.contexts()[0]?.pages() ?? [];
    await expect.poll(() => pages().length, { timeout: 20_000 }).toBeGreaterThan(0);
    const page = pages()[0]!;
    await page.waitForFunction(() => 'wakeline' in globalThis);
    await switchOn(page);
    const watcher = processesOn(`--watch=${dataFolder}`)[0];
    expect(watcher, 'the watcher runs').toBeDefined();
    expect(readlinkSync(`/proc/${watcher}/exe`)).toBe(fused.path);
    app.kill('SIGKILL');
    expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
    await expect.poll(() => noted()?.supplies[0]?.result).toBe('read-back-off');
    await expect.poll(() => processesOn(`--watch=${dataFolder}`)).toEqual([]);
  } finally {
    app?.kill('SIGKILL');
    fused.remove();
  }
});
