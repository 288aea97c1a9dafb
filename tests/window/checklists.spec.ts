import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { askApp, mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { hasNoA11yTrouble } from '../support/no-a11y-trouble.ts';

let launched: LaunchedApp;
let page: Page;
const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-checklists-'));
test.describe.configure({ mode: 'serial' });

test.beforeAll(async () => {
  launched = await launchApp();
  page = launched.page;
  page.setDefaultTimeout(10_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
  );
  await mustAsk(page, 'sayInitials', { initials: 'KV' });
});
test.afterAll(async () => {
  await launched.close();
  rmSync(folder, { recursive: true, force: true });
});

const editor = () => page.getByRole('region', { name: /^Checklist: / });
const line = (title: string | RegExp) => editor().getByRole('button', { name: title });
const keep = () => editor().getByRole('button', { name: 'Keep as a new version' });
const losses = () => page.getByRole('region', { name: 'What it guards no longer' });
const newest = async (key: string) => (await mustAsk(page, 'templateHistory', { key }))[0]!;

test('a step is added, written, moved and removed with keys alone, and kept as a version', async () => {
  await page.keyboard.press('F1');
  await page.keyboard.press(';');
  await expect(editor()).toBeVisible();
  await hasNoA11yTrouble(page, '.templates');
  await page
    .getByRole('navigation', { name: 'Kinds of job' })
    .getByRole('button', { name: /^Runs, no picture/ })
    .click();
  await expect(editor().getByLabel('Kind of job')).toHaveValue('Runs, no picture');
  await line(/^\d+ Hear what happened/).focus();
  await page.keyboard.press('ArrowDown');
  await expect(line(/^\d+ Ask about earlier repairs/)).toBeFocused();
  await page.keyboard.press('Insert');
  await expect(line(/^3 New step/)).toBeFocused();
  await editor().getByLabel('Step', { exact: true }).fill('Lid angle at which it goes dark');
  await editor().getByLabel('Needs').selectOption('note');
  await line(/^3 Lid angle/).focus();
  await page.keyboard.press('Alt+ArrowDown');
  await expect(line(/^4 Lid angle/)).toBeFocused();
  await page.keyboard.press('Alt+ArrowUp');
  await page.keyboard.press('Alt+ArrowUp');
  await expect(line(/^2 Lid angle/)).toBeFocused();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Insert');
  await expect(line(/^4 New step/)).toBeFocused();
  await page.keyboard.press('Delete');
  await expect(line(/New step/)).toHaveCount(0);
  await keep().click();
  await expect(editor()).toContainText("Version 2, the shop's own, KV");
  const kept = await newest('no-picture');
  expect(kept).toMatchObject({ version: 2, origin: 'shop', madeBy: 'KV', lost: [] });
  expect(kept.steps[1]).toMatchObject({
    title: 'Lid angle at which it goes dark',
    step: 'new-step',
    phase: 'Take in',
    needs: 'note',
  });
});

test('a step that cannot be walked is named, and nothing is kept', async () => {
  const before = await newest('no-picture');
  await line(/First powered run/).click();
  await editor().getByLabel('Holds back until settled').selectOption('power');
  await expect(editor().getByRole('alert')).toContainText('needs power itself');
  await expect(keep()).toHaveAttribute('aria-disabled', 'true');
  await keep().click({ force: true });
  expect((await newest('no-picture')).version).toBe(before.version);
  const { key, title, steps } = before;
  const deaf = steps.map((step) => (step.step === 'ohms-input' ? { ...step, place: '' } : step));
  const refused = await askApp(page, 'saveTemplate', {
    key,
    title,
    steps: deaf,
    understood: [],
    isFromFile: false,
  });
  expect(refused).toMatchObject({
    ok: false,
    trouble: { code: 'bad-input', where: expect.stringContaining('Resistance to ground, input') },
  });
  await page.getByRole('button', { name: 'Drop what was changed' }).click();
  await expect(editor().getByRole('alert')).toHaveCount(0);
});

test('a gate is not weakened before a person was told what it guards', async () => {
  await line(/Cells unplugged/).click();
  await editor().getByLabel('Holds back until settled').selectOption('nothing');
  await editor()
    .getByLabel(/^Caution shown/)
    .fill('');
  await expect(losses().getByRole('listitem')).toHaveCount(2);
  await expect(losses()).toContainText('no longer holds back ohms and diode readings, and power');
  await expect(losses()).toContainText('A cell left in feeds the meter');
  await hasNoA11yTrouble(page, '.templates');
  await expect(keep()).toHaveAttribute('aria-disabled', 'true');
  for (const box of await losses().getByRole('checkbox').all()) await box.check();
  await keep().click();
  await expect(editor()).toContainText('Version 3');
  expect((await newest('no-picture')).lost).toHaveLength(2);
});

test('an open job keeps the version it began with, and says so', async () => {
  const job = await mustAsk(page, 'createJob', jobFields({ template: 'no-picture' }));
  await mustAsk(page, 'openJobOnBench', { jobId: job.id });
  const { items } = await mustAsk(page, 'readJob', { id: job.id });
  expect(items.find(({ step }) => step === 'cells-unplugged')?.gate).toBe('nothing');
  await page
    .getByRole('navigation', { name: 'Kinds of job' })
    .getByRole('button', { name: /^Runs, no picture/ })
    .click();
  await editor().getByRole('button', { name: 'Return to the built-in one' }).click();
  await editor().getByRole('button', { name: 'Press again to return' }).click();
  await expect(editor()).toContainText('Version 4, as built in');
  await page.keyboard.press('F1');
  const checklist = page.getByRole('region', { name: 'Checklist' });
  await expect(checklist).toContainText("Runs, no picture, version 3, the shop's own");
  await expect(checklist).toContainText('the shop is at version 4; this job keeps its own');
  await expect(checklist).toContainText('It guards less than the built-in one');
  const after = await mustAsk(page, 'readJob', { id: job.id });
  expect(after.items.map(({ step }) => step)).toEqual(items.map(({ step }) => step));
});

test('who settled a step is written beside it', async () => {
  await page.keyboard.press('i');
  const field = page.getByLabel('Your initials');
  await expect(field).toHaveValue('KV');
  await field.fill('RO');
  await page.keyboard.press('Enter');
  await expect(page.getByRole('button', { name: /^Signed RO/ })).toBeVisible();
  await page.keyboard.press('d');
  const checklist = page.getByRole('region', { name: 'Checklist' });
  await expect(checklist.getByRole('button', { name: /done by RO/ })).toHaveCount(1);
});

test('a checklist goes to a file and comes back as a new kind, and a spoiled file is named', async () => {
  const file = path.join(folder, 'ours.json');
  await launched.app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
    dialog.showOpenDialog = async () => ({ canceled: false, filePaths: [filePath] });
  }, file);
  await page.keyboard.press('F2');
  await page.getByRole('button', { name: /^Checklists/ }).click();
  await expect(editor()).toBeVisible();
  await editor().getByRole('button', { name: 'Write to a file' }).click();
  await expect.poll(() => existsSync(file)).toBe(true);
  const written = JSON.parse(readFileSync(file, 'utf8'));
  expect(written).toMatchObject({ format: 'wakeline-checklist', key: 'does-not-turn-on' });
  written.key = 'amplifier';
  written.title = 'Amplifier hums';
  writeFileSync(file, JSON.stringify(written));
  await page.getByRole('button', { name: 'Read a checklist file' }).click();
  await expect(editor().getByLabel('Kind of job')).toHaveValue('Amplifier hums');
  await keep().click();
  await expect(editor()).toContainText('Version 1, read from a file, RO');
  await page.keyboard.press('F2');
  await page.keyboard.press('j');
  await expect(page.getByText('Amplifier hums', { exact: true })).toBeVisible();
  written.steps[4].gate = 'everything';
  writeFileSync(file, JSON.stringify(written));
  const refused = await askApp(page, 'openTemplateFile', {});
  expect(refused).toMatchObject({
    ok: false,
    trouble: { code: 'bad-input', where: expect.stringMatching(/ours\.json, step 5 ".*", gate/) },
  });
});
