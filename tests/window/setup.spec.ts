import { mkdirSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';
import { startPretend } from '../support/pretend-process.ts';

test('an instrument is asked who it is, connected by its form, and its bytes are saved to a file', async () => {
  test.setTimeout(120_000);
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-setup-'));
  mkdirSync(path.join(dataFolder, 'dialects'));
  writeFileSync(path.join(dataFolder, 'dialects', 'mine.json'), '{"role": "supply"}');
  const pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
  const { app, page, close } = await launchApp({ dataFolder });
  try {
    // A dialect file of one's own that is wrong is told by name, and nothing else suffers from it.
    await expect(page.getByTestId('alarm')).toContainText('mine.json', { timeout: 30_000 });

    const port = path.join(pretend.folder, 'supply');
    const found = await mustAsk(page, 'askWhoIsThere', { by: 'serial', path: port });
    expect(found).toMatchObject({ role: 'supply', canSwitch: true });
    expect(found.identity).toContain('SUPPLY');

    await page.keyboard.press('F4');
    const form = page.getByRole('form', { name: 'Connect the supply' });
    await form.getByLabel('Serial port').check();
    await form.getByLabel('Port', { exact: true }).fill(port);
    await form.getByRole('button', { name: /^Connect the supply/ }).click();
    const supply = async () => (await mustAsk(page, 'benchState', {})).supply;
    await expect.poll(async () => (await supply()).address?.by, { timeout: 30_000 }).toBe('serial');
    await expect.poll(async () => (await supply()).link, { timeout: 30_000 }).toBe('live');

    const file = path.join(dataFolder, 'bytes.txt');
    await app.evaluate(({ dialog }, filePath) => {
      dialog.showSaveDialog = async () => ({ canceled: false, filePath });
    }, file);
    await page.getByRole('button', { name: 'Save the supply’s byte log' }).click();
    await expect(page.getByText(`Written: ${file}.`)).toBeVisible();
    const log = readFileSync(file, 'utf8');
    expect(log).toMatch(/^\S+Z > \*IDN\?\\n$/m);
    expect(log).toMatch(/^\S+Z < .*SUPPLY/m);
  } finally {
    await close();
    await pretend.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
});
