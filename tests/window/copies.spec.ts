import { existsSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { openSeededLedger } from '../support/seed-ledger.ts';

let launched: LaunchedApp;
let page: Page;
let folder: string;
let closedId: string;

test.beforeAll(async () => {
  test.setTimeout(180_000);
  folder = mkdtempSync(path.join(tmpdir(), 'wakeline-copies-'));
  const other = await openSeededLedger(path.join(folder, 'other.sqlite'));
  await other.ledger.close();
  launched = await launchApp();
  page = launched.page;
  const job = await mustAsk(page, 'createJob', jobFields({ boardModel: 'Tern 14' }));
  closedId = job.id;
  await mustAsk(page, 'answerQuestion', { jobId: job.id, question: 'draw', outcome: 'stalled' });
  await page.keyboard.press('F2');
});

test.afterAll(async () => {
  await launched?.close();
  if (folder) rmSync(folder, { recursive: true, force: true });
});

/** The next folder or file that a person would choose. */
async function willChoose(chosen: string): Promise<void> {
  await launched.app.evaluate(({ dialog }, filePath) => {
    dialog.showOpenDialog = async () => ({ canceled: false, filePaths: [filePath] });
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
  }, chosen);
}

const pane = () => page.getByRole('region', { name: 'Backups and copies' });

test('says how old the last backup is, makes one while the bench records, and restores it to a file', async () => {
  test.setTimeout(120_000);
  await expect(page.locator('.ledger-words')).toContainText('No backup yet');
  await page.getByRole('button', { name: 'Backups and copies' }).click();
  await expect(pane()).toBeVisible();
  await page.keyboard.press('0');
  await expect(pane()).toHaveCount(0);
  await page.getByRole('button', { name: 'Loose runs and readings' }).focus();
  await page.keyboard.press('0');
  await expect(pane().getByText('Choose a folder, best on another disk')).toBeVisible();
  await willChoose(path.join(folder, 'backups'));
  await pane().getByRole('button', { name: 'Choose the folder' }).click();
  await pane().getByRole('button', { name: 'Back up now' }).click();
  await expect(pane().getByText(/Backed up and read back/)).toBeVisible({ timeout: 60_000 });
  await expect(page.locator('.ledger-words')).toContainText('Last backup today');
  await willChoose(path.join(folder, 'restored.sqlite'));
  const line = pane().locator('.backup-line');
  await expect(line).toHaveCount(1);
  await line.getByRole('button', { name: 'Restore to a file' }).click();
  await expect(pane().getByText(/Restored to .*restored\.sqlite: 1 jobs/)).toBeVisible({
    timeout: 60_000,
  });
  expect(existsSync(path.join(folder, 'restored.sqlite'))).toBe(true);
  // The drive is pulled: said in the window, with what to do.
  rmSync(path.join(folder, 'backups', 'wakeline-backups.txt'));
  await pane().getByRole('button', { name: 'Back up now' }).click();
  await expect(pane().getByText(/The newest try.*failed/)).toBeVisible({ timeout: 60_000 });
});

test('exports the whole ledger and takes another one in, telling first what it would do', async () => {
  test.setTimeout(120_000);
  await willChoose(folder);
  await pane().getByRole('button', { name: 'Export the whole ledger' }).click();
  await expect(pane().getByText(/Written to .*wakeline-export/)).toBeVisible({ timeout: 60_000 });
  const exported = readdirSync(folder).find((name) => name.startsWith('wakeline-export'))!;
  const manifest = JSON.parse(
    readFileSync(path.join(folder, exported, 'manifest.json'), 'utf8'),
  ) as {
    tables: { table: string; rows: number }[];
  };
  expect(manifest.tables.find(({ table }) => table === 'jobs')?.rows).toBe(1);

  await willChoose(path.join(folder, 'other.sqlite'));
  await pane().getByRole('button', { name: 'From a ledger file' }).click();
  await expect(pane().getByText(/5 new jobs/)).toBeVisible({ timeout: 60_000 });
  await expect(
    pane()
      .getByText(/Job 1 of the other ledger|5 jobs get another number|number/)
      .first(),
  ).toBeVisible();
  expect(await mustAsk(page, 'listJobs', { search: '', limit: 50 })).toHaveLength(1);
  await pane().getByRole('button', { name: 'Take it in' }).press('Enter');
  await pane()
    .getByRole('button', { name: /^Press again/ })
    .press('Enter');
  await expect(pane().getByText(/^Taken in:/)).toBeVisible({ timeout: 60_000 });
  expect(await mustAsk(page, 'listJobs', { search: '', limit: 50 })).toHaveLength(6);
  await expect(page.locator('.job-line')).toHaveCount(6);
  // Once more: nothing.
  await pane().getByRole('button', { name: 'From a ledger file' }).click();
  await expect(pane().getByText(/Everything in it is here already/)).toBeVisible({
    timeout: 60_000,
  });
  await pane().getByRole('button', { name: 'Leave it' }).click();

  writeFileSync(path.join(folder, 'letter.sqlite'), 'Dear customer');
  await willChoose(path.join(folder, 'letter.sqlite'));
  await pane().getByRole('button', { name: 'From a ledger file' }).click();
  await expect(page.getByText(/does not hold a database/)).toBeVisible({ timeout: 60_000 });
});

test('edits the causes: under a node, another name, retired, and odds of its own', async () => {
  test.setTimeout(90_000);
  await page.getByRole('button', { name: 'Causes', exact: true }).click();
  const causes = page.getByRole('region', { name: 'Causes', exact: true });
  await causes.getByRole('button', { name: 'Add under a short', exact: true }).click();
  const form = causes.getByRole('form', { name: 'A new cause' });
  await form.getByLabel('What it is').fill('cracked corner ceramic');
  await page.keyboard.press('Enter');
  await expect(causes.locator('.cause-tree')).toContainText('cracked corner ceramic');
  await causes.getByRole('button', { name: 'Change cracked corner ceramic' }).click();
  const change = causes.getByRole('form', { name: 'Change cracked corner ceramic' });
  await change.getByLabel('What it is').fill('ceramic cracked at a screw');
  await change.getByLabel('How usual').fill('none');
  await page.keyboard.press('Enter');
  await expect(change.getByRole('alert')).toBeVisible();
  await change.getByLabel('How usual').fill('2');
  await page.keyboard.press('Enter');
  await expect(causes.locator('.cause-tree')).toContainText('ceramic cracked at a screw');
  await causes.getByRole('button', { name: 'Retire memory', exact: true }).click();
  await expect(causes.locator('.cause-tree')).toContainText('memory, retired');
  await causes.getByLabel('Of', { exact: true }).selectOption('limit');
  const cell = causes.getByLabel('current limit set too low, too low, per cent');
  await cell.fill('90');
  await page.keyboard.press('Enter');
  await expect(causes.getByText(/1 row of it as this shop put it/)).toBeVisible();
  await cell.fill('190');
  await page.keyboard.press('Enter');
  await expect(causes.getByRole('alert')).toBeVisible();
});

test('a job that is closed keeps what it rested on, and says what is missing for a proof', async () => {
  test.setTimeout(90_000);
  await mustAsk(page, 'saveCause', {
    key: null,
    text: 'a joint cracked by heat',
    parent: 'short',
    check: '',
    weight: 1,
  });
  await mustAsk(page, 'retireCause', { key: 'logic:firmware', isRetired: true });
  await page.locator('.job-line', { hasText: 'Tern 14' }).click();
  const outcome = page.getByRole('form', { name: 'Outcome' });
  await outcome.getByText('Wakes', { exact: true }).click();
  const pick = outcome.getByLabel('Cause', { exact: true });
  await expect(pick.locator('option', { hasText: 'a joint cracked by heat' })).toHaveCount(1);
  await expect(pick.locator('option', { hasText: /^\s*firmware/ })).toHaveCount(0);
  await pick.selectOption('short:main');
  await outcome.getByText('The board woke').click();
  await expect(outcome.getByText(/Missing for a proof: the part removed/)).toBeVisible();
  await outcome.getByText('The part was removed or replaced').click();
  await outcome.getByRole('button', { name: 'Close the job' }).click();
  const kept = page.getByRole('region', { name: 'Causes as they were weighed' });
  await expect(
    kept
      .getByText('The draw', { exact: false })
      .or(kept.getByText('Looked at', { exact: false }))
      .first(),
  ).toBeVisible();
  await expect(kept.getByText(/Weighed by version/)).toBeVisible();
  await expect(
    page.getByText(/not counted: missing for a proof is the reading back/),
  ).toBeVisible();
  const stored = await mustAsk(page, 'readKeptEvidence', { jobId: closedId });
  expect(stored?.findings.length).toBeGreaterThan(0);
});
