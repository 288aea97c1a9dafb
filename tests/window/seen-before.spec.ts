import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { AxeBuilder } from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { csvRows } from '../../core/trace/csv-write.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { stallsAt, supplyTrace } from '../support/seed-draws.ts';
import { openSeededLedger } from '../support/seed-ledger.ts';

let launched: LaunchedApp;
const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-seen-'));
const traceFile = path.join(dataFolder, 'stalled.csv');

// One job from test to test: a second try begins the file again.
test.describe.configure({ mode: 'serial' });

test.beforeAll(async () => {
  const { ledger } = await openSeededLedger(path.join(dataFolder, 'ledger.sqlite'));
  await ledger.close();
  const columns = supplyTrace(stallsAt(0.25), { seconds: 45, setV: 19 });
  writeFileSync(traceFile, `time_s,volts_V,amps_A,regulation\n${csvRows(columns)}`);
  launched = await launchApp({ dataFolder });
  // The person's answers to the file dialogs.
  await launched.app.evaluate(
    ({ dialog }, at) => {
      dialog.showOpenDialog = () => Promise.resolve({ canceled: false, filePaths: [at.open] });
      dialog.showSaveDialog = () => Promise.resolve({ canceled: false, filePath: at.save });
    },
    { open: traceFile, save: path.join(dataFolder, 'run.csv') },
  );
});
test.afterAll(async () => {
  await launched.close();
  rmSync(dataFolder, { recursive: true, force: true });
});

test('a trace file becomes a run that leaves the band, was seen before, and is told apart in words', async () => {
  test.setTimeout(120_000);
  const { page } = launched;
  await page.getByRole('navigation').getByRole('button', { name: 'Job book' }).click();
  await page.getByRole('button', { name: /No picture/ }).click();
  await page.getByRole('button', { name: 'Read a trace file' }).click();
  const read = page.getByLabel('Read a trace file').getByRole('status');
  await expect(read).toContainText('Read: 900 readings.');
  await page.getByLabel('Read a trace file').getByRole('button', { name: 'Replay it' }).click();

  await expect(page.getByTestId('good-band')).toBeVisible();
  await expect(page.getByTestId('band-left').first()).toBeVisible();
  const band = page.getByLabel('Known-good band');
  await expect(band).toContainText('One good run only');
  await expect(band.getByRole('button').last()).toContainText(/leaves the known-good band/);

  const like = page.getByLabel('Where have I seen this?');
  await expect(like.getByRole('listitem').first()).toContainText('C3107 shorted on the main rail');
  await expect(like.getByRole('listitem').first()).toContainText('Fed alike.');

  // A stage opened by key, and closed by key.
  const stage = page.locator('.stage[tabindex="0"]');
  await stage.focus();
  await page.keyboard.press('Enter');
  const evidence = page.getByRole('dialog');
  await expect(evidence).toContainText('Held against');
  await expect(evidence).toContainText('Noise');
  await expect(evidence.getByLabel('Good runs')).toContainText('Job 1');
  await page.keyboard.press('Escape');
  await expect(evidence).toBeHidden();

  const found = await new AxeBuilder({ page }).setLegacyMode().include('main').analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);

  await page.getByLabel('Export the trace').getByRole('button', { name: 'Export trace' }).click();
  await expect(page.getByLabel('Export the trace').getByRole('status')).toContainText(
    '900 readings',
  );
  expect(existsSync(path.join(dataFolder, 'run.csv'))).toBe(true);
  expect(readFileSync(path.join(dataFolder, 'run.csv'), 'utf8')).toBe(
    readFileSync(traceFile, 'utf8'),
  );

  await like.getByRole('checkbox').nth(1).check();
  await like.getByRole('button', { name: 'Compare with 1' }).click();
  await expect(page.getByTestId('compared-run')).toHaveCount(2);
  const second = page.getByRole('listitem').filter({ hasText: 'Replay B' });
  await expect(second).toContainText(/ends running where the first ends/);
  await expect(second).toContainText(/one step more/);
  await page.getByLabel('Meet at').selectOption({ index: 2 });
  await expect(page.getByTestId('compared-run')).toHaveCount(2);
  const compared = await new AxeBuilder({ page }).setLegacyMode().include('main').analyze();
  expect(compared.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
  // The plot by key: it moves and zooms, and goes on being drawn.
  await page.getByRole('group', { name: /Overlaid draws/ }).focus();
  for (const key of ['+', '+', 'ArrowRight', '-', 'Home']) await page.keyboard.press(key);
  await expect(page.getByTestId('compared-run')).toHaveCount(2);
});
