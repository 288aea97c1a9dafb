import { execFileSync } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { askApp, mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { openSeededLedger } from '../support/seed-ledger.ts';

let launched: LaunchedApp;
let page: Page;
let folder: string;

test.beforeAll(async () => {
  folder = mkdtempSync(path.join(tmpdir(), 'wakeline-shop-'));
  const { ledger } = await openSeededLedger(path.join(folder, 'ledger.sqlite'));
  await ledger.close();
  launched = await launchApp({ dataFolder: folder });
  page = launched.page;
});
test.afterAll(async () => {
  await launched.close();
  rmSync(folder, { recursive: true, force: true });
});

const search = (words: string) => page.getByLabel(/Search the job book/).fill(words);

/** Presses keys as a scanner does: all of them at once, into whatever has the focus. */
const scan = (code: string) =>
  page.evaluate((digits) => {
    const target = document.activeElement ?? document.body;
    for (const key of [...digits, 'Enter']) {
      const event = new KeyboardEvent('keydown', { key, bubbles: true, cancelable: true });
      const isLet = target.dispatchEvent(event);
      if (!isLet || key === 'Enter' || !(target instanceof HTMLInputElement)) continue;
      const own = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value');
      own?.set?.call(target, target.value + key);
      target.dispatchEvent(new Event('input', { bubbles: true }));
    }
  }, code);

test('a search says why a job was found and opens it there', async () => {
  await page.keyboard.press('F2');
  await search('stalled 0.1..0.4 A "stays on"');
  const whys = page.locator('.found-why');
  await expect(whys.first()).toBeVisible();
  await expect(page.locator('.search-read')).toContainText('stage stalled at 0.1');
  await expect(whys.filter({ hasText: 'Symptom' }).locator('mark')).toHaveText('stays on');
  await whys.filter({ hasText: 'Run' }).click();
  const place = page.locator('[data-found]');
  await expect(place).toHaveAttribute('data-testid', 'run-line');
  await expect(place).toBeInViewport();
});

test('a search that is wrong is pointed at, and finds again once it is right', async () => {
  await page.keyboard.press('F2');
  await search('stalled 0.4..0.1 A');
  await expect(page.locator('.search-wrong')).toContainText('character 14');
  await search('stalled 0.1..0.4 A');
  await expect(page.locator('.search-wrong')).toHaveCount(0);
  await expect(page.locator('.found-why').first()).toBeVisible();
  await search('nothing says this');
  await expect(page.locator('.book-none')).toBeVisible();
});

test('the bars of a printed bag tag are read by another program and open the job from anywhere', async () => {
  const job = await mustAsk(page, 'createJob', jobFields({ symptom: 'tagged', customer: '' }));
  const pdf = path.join(folder, 'tag.pdf');
  await launched.app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
  }, pdf);
  const file = await mustAsk(page, 'exportTag', { jobId: job.id });
  expect(file).toMatchObject({ path: pdf, pages: 1 });
  const code = await mustAsk(page, 'readTag', { jobId: job.id });
  expect(existsSync(pdf)).toBe(true);
  execFileSync('pdftoppm', ['-r', '200', '-png', '-singlefile', pdf, path.join(folder, 'tag')]);
  expect(execFileSync('pdftotext', [pdf, '-'], { encoding: 'utf8' })).toContain(
    `${code.slice(0, 4)} ${code.slice(4)}`,
  );
  // An independent reader of bars; without it the digits that were printed are scanned.
  let read = `CODE-128:${code}`;
  try {
    read = execFileSync('zbarimg', ['-q', path.join(folder, 'tag.png')], {
      encoding: 'utf8',
      stdio: ['ignore', 'pipe', 'ignore'],
    }).trim();
  } catch (thrown) {
    if ((thrown as NodeJS.ErrnoException).code !== 'ENOENT') throw thrown;
    console.log('zbarimg is not installed: the bars were not read by another program');
  }
  expect(read).toBe(`CODE-128:${code}`);

  await page.keyboard.press('F1');
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await scan(read.replace('CODE-128:', ''));
  await expect(page.getByRole('article', { name: `Job ${job.number}` })).toBeVisible();
});

test('a scan into a field opens the job and leaves the field as it was', async () => {
  const job = await mustAsk(page, 'createJob', jobFields({ symptom: 'scanned', customer: '' }));
  const code = await mustAsk(page, 'readTag', { jobId: job.id });
  await page.keyboard.press('F2');
  await search('tag');
  await page.getByLabel(/Search the job book/).focus();
  await scan(code);
  await expect(page.getByRole('article', { name: `Job ${job.number}` })).toBeVisible();
  await expect(page.getByLabel(/Search the job book/)).toHaveValue('tag');
});

test('a scan with a wrong digit is said to be one', async () => {
  const job = await mustAsk(page, 'createJob', jobFields({ symptom: 'misread', customer: '' }));
  const code = await mustAsk(page, 'readTag', { jobId: job.id });
  await page.evaluate(() => (document.activeElement as HTMLElement | null)?.blur());
  await scan(`${code.slice(0, 7)}${(Number(code.charAt(7)) + 1) % 10}`);
  await expect(page.getByText(/check digit of this code does not fit/)).toBeVisible();
});

test('a customer who was here before is picked at intake, quoted, and forgotten on request', async () => {
  await mustAsk(page, 'saveShop', { currency: 'EUR', hourMinor: 7_500, warrantyDays: 90 });
  const first = { ...jobFields({ customer: 'Rook Wells' }), customerReach: '0555 0101' };
  await mustAsk(page, 'createJob', first);
  await page.keyboard.press('F2');
  await page.getByRole('button', { name: /^New job/ }).click();
  await page.getByLabel('Symptom').fill('picked at intake');
  await page.getByLabel('Customer').fill('rook');
  await page.getByRole('button', { name: /Rook Wells/ }).click();
  await page.getByRole('button', { name: 'Take in only' }).click();
  const part = page.getByRole('region', { name: 'Customer and money' });
  await expect(part).toContainText('0555 0101');

  await part.getByRole('button', { name: 'Make a quote' }).click();
  await part.getByLabel('Amount, EUR').fill('129.505');
  await part.getByRole('button', { name: /Keep quote/ }).click();
  await expect(part.getByRole('alert')).toContainText('2 digits after the point');
  await part.getByLabel('Amount, EUR').fill('129.50');
  await part.getByRole('button', { name: /Keep quote/ }).click();
  await expect(page.locator('.job-head')).toContainText('Waiting for approval');
  await part.getByRole('button', { name: 'Approved' }).click();
  await expect(part).toContainText('Approved in person');
  await expect(page.locator('.job-head')).toContainText('Open, taken in');

  await page.getByRole('button', { name: 'Customers' }).click();
  const customers = page.getByRole('region', { name: 'Customers' });
  await expect(customers).toContainText('2 jobs');
  const line = customers.getByRole('listitem').filter({ hasText: 'Rook Wells' });
  await line.getByRole('button', { name: 'Erase' }).click();
  await line.getByRole('button', { name: /Press again/ }).click();
  await expect(customers.getByText('Rook Wells')).toHaveCount(0);
  const left = await askApp(page, 'listJobs', { search: 'rook', limit: 5 });
  expect(left).toMatchObject({ ok: true, value: [] });
  const kept = await askApp(page, 'listJobs', { search: '"picked at intake"', limit: 5 });
  expect(kept.ok && kept.value.length).toBe(1);
});

test('figures say how few they rest on', async () => {
  await page.keyboard.press('F2');
  await page.getByRole('button', { name: 'Figures' }).click();
  const figures = page.getByRole('region', { name: 'Figures' });
  await figures.getByLabel('From').fill('2026-01-01');
  await figures.getByLabel('To').fill('2026-12-31');
  await expect(figures).toContainText('One diagnosis');
  await figures.getByLabel('From').fill('2001-01-01');
  await figures.getByLabel('To').fill('2001-12-31');
  await expect(figures).toContainText('Nothing was taken in or closed');
});
