import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';

const RUN_MS = 5000;
/** The promise: at most one second of samples. */
const MAY_LOSE_S = 1;

test('a killed app loses at most a second of a run and says what it found again', async () => {
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-kill-'));
  try {
    const first = await launchApp({ dataFolder });
    const { page } = first;
    await expect.poll(async () => (await mustAsk(page, 'benchState', {})).supply.link).toBe('live');
    await mustAsk(page, 'hands', { do: 'put-board', board: 'tern-healthy' });
    await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
    await mustAsk(page, 'setLimit', { amps: 2.5 });
    await mustAsk(page, 'outputOn', {});
    const onAt = Date.now();
    await page.waitForTimeout(RUN_MS);
    const ranS = (Date.now() - onAt) / 1000;
    first.app.process().kill('SIGKILL');
    await new Promise((gone) => first.app.process().once('exit', gone));

    const told = execFileSync(
      process.execPath,
      [
        '-e',
        `const D = require('better-sqlite3');
         const d = new D(process.argv[1], { readonly: true });
         console.log(d.pragma('integrity_check', { simple: true }));`,
        path.join(dataFolder, 'ledger.sqlite'),
      ],
      { encoding: 'utf8' },
    );
    expect(told.trim()).toBe('ok');

    const second = await launchApp({ dataFolder });
    const recovered = await mustAsk(second.page, 'recovered', {});
    const powered = recovered.find(({ run }) => run.kind === 'powered');
    expect(powered, 'the run that was cut off').toBeDefined();
    expect(powered!.run.end).toBe('recovered');
    expect(powered!.run.durationS).toBeGreaterThan(ranS - MAY_LOSE_S);
    const { report } = await mustAsk(second.page, 'readRun', { id: powered!.run.id });
    expect(report.stages.length).toBeGreaterThan(0);
    await second.close();
  } finally {
    rmSync(dataFolder, { recursive: true, force: true });
  }
});

test('a second start shows the first window instead of a second one', async () => {
  const first = await launchApp();
  await expect(launchApp({ dataFolder: first.dataFolder })).rejects.toThrow();
  expect(first.app.windows()).toHaveLength(1);
  await first.close();
});

test('a window that crashes is opened again, and recording goes on', async () => {
  const { app, page, close } = await launchApp();
  await expect.poll(async () => (await mustAsk(page, 'benchState', {})).supply.link).toBe('live');
  const recorded = async () => (await mustAsk(page, 'benchState', {})).run?.id ?? null;
  await expect.poll(recorded).not.toBeNull();
  const runId = await recorded();
  const before = await app.evaluate(({ BrowserWindow }) => {
    const { webContents } = BrowserWindow.getAllWindows()[0]!;
    // Not from inside the test's own call: its answer would be lost with the frame.
    setTimeout(() => webContents.forcefullyCrashRenderer(), 50);
    return webContents.getOSProcessId();
  });
  // With a debugger attached, as here, Electron now and then never tells of the dead window: then
  // it is found by its process. Asked through main, because the debugger's own page is gone.
  const after = () =>
    app.evaluate(async ({ BrowserWindow }, old) => {
      const { webContents } = BrowserWindow.getAllWindows()[0]!;
      if (webContents.getOSProcessId() === old || webContents.isLoading()) return null;
      const told = webContents
        .executeJavaScript(
          'window.wakeline.benchState({}).then(({ value }) => [value.supply.link, value.run.id])',
        )
        .catch(() => null);
      // Asked between two pages, it is never answered.
      const silence = new Promise((resolve) => setTimeout(() => resolve(null), 1000));
      return Promise.race([told, silence]);
    }, before);
  await expect.poll(after, { timeout: 40_000 }).toEqual(['live', runId]);
  await close();
});
