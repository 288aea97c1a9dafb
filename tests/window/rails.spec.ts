import { execFileSync } from 'node:child_process';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { TERN_RAILS } from '../support/tern-rails.ts';

/** Where each rail of the pasted table is touched on the pretend board. */
const NET: Readonly<Record<string, string>> = { DC_FUSED: 'F1 board side' };
const SETTLE_MS = 900;

let launched: LaunchedApp;
let page: Page;
// One job from test to test: a second try begins the file again.
test.describe.configure({ mode: 'serial' });

test.beforeAll(async () => {
  launched = await launchApp();
  page = launched.page;
  page.setDefaultTimeout(10_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
  );
});
test.afterAll(() => launched.close());

const board = () => page.getByRole('form', { name: 'Board' });
const cell = (row: number, column: string) =>
  board().getByLabel(`Row ${row}, ${column}`, { exact: true });
const measure = () => page.getByRole('region', { name: 'Measure', exact: true });

/** What a spreadsheet leaves on the clipboard, pasted into a cell. */
async function paste(text: string): Promise<void> {
  await cell(1, 'rail').focus();
  await cell(1, 'rail').evaluate((field, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    field.dispatchEvent(
      new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
    );
  }, text);
}

async function hasNoA11yTrouble(within: string): Promise<void> {
  const found = await new AxeBuilder({ page })
    .setLegacyMode()
    .include(within)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

test('a board of five rails is pasted, told what is wrong at its row, and saved', async () => {
  await page.getByRole('button', { name: 'Boards', exact: true }).click();
  await board().getByLabel('Board', { exact: true }).fill('Tern 14');
  await paste(TERN_RAILS);
  await expect(cell(5, 'rail')).toHaveValue('SYS_3V3');
  await expect(cell(2, 'fed by')).toHaveValue('DC_FUSED');

  await cell(4, 'fed by').fill('MAIN_8V7');
  await expect(board().getByRole('alert')).toContainText('Is it MAIN_8V6?');
  await expect(cell(4, 'rail')).toHaveAttribute('aria-invalid', 'true');
  await board().getByRole('button', { name: 'Save board' }).click();
  await expect(board().getByRole('alert')).toContainText('MAIN_8V7 feeds it');
  expect(await mustAsk(page, 'readBoard', { name: 'Tern 14' })).toBeNull();

  await cell(4, 'fed by').fill('MAIN_8V6');
  await expect(board().getByRole('alert')).toHaveCount(0);
  await board().getByLabel('Stated input, V').fill('19');
  await board().getByRole('button', { name: 'Save board' }).click();
  await expect(board().getByText('Saved.', { exact: true })).toBeVisible();
  const kept = await mustAsk(page, 'readBoard', { name: 'Tern 14' });
  expect(kept?.stated.rails).toHaveLength(5);
  expect(kept?.stated.statedInputV).toBe(19);
  await expect(page.getByRole('figure', { name: 'Rails of Tern 14' })).toContainText('SYS_5V');
  await hasNoA11yTrouble('.boards');
});

test('the table is walked by keys: Enter goes down and adds a row, arrows move, a row goes', async () => {
  await cell(5, 'core').focus();
  await page.keyboard.press('Enter');
  await expect(cell(6, 'rail')).toBeFocused();
  await page.keyboard.type('IO_1V8');
  await page.keyboard.press('ArrowRight');
  await expect(cell(6, 'volts')).toBeFocused();
  await page.keyboard.type('1.8');
  await page.keyboard.press('ArrowUp');
  await expect(cell(5, 'volts')).toBeFocused();
  await page.keyboard.press('ArrowDown');
  await page.keyboard.press('Control+Backspace');
  await expect(cell(6, 'rail')).toHaveCount(0);
  // F9 and the view keys go on working while a cell is typed in.
  await page.keyboard.press('F5');
  await expect(page.getByRole('heading', { name: 'No job is open' })).toBeVisible();
});

let jobId = '';

test('the advice leads along the pretend board to its shorted main rail', async () => {
  test.setTimeout(120_000);
  const job = await mustAsk(page, 'createJob', {
    boardModel: 'Tern 14',
    serialNumber: 'T14-B',
    customer: 'Quill & Daughter',
    symptom: 'Does not start after a drink',
    liquid: 'yes',
    matters: 'device',
    earlierRepairs: '',
    accessories: '',
    promised: '',
    board: { statedInputV: 19, statedLimitA: 2, runningA: null, runsFlat: null },
    template: 'does-not-turn-on',
  });
  jobId = job.id;
  await mustAsk(page, 'openJobOnBench', { jobId });
  for (const item of (await mustAsk(page, 'readJob', { id: jobId })).items) {
    if (item.beforePower) {
      await mustAsk(page, 'skipItem', { jobId, itemId: item.id, reason: 'pretend board' });
    }
  }
  await mustAsk(page, 'hands', { do: 'put-board', board: 'tern-main-short' });
  await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
  await mustAsk(page, 'setLimit', { amps: 2 });
  await expect(page.getByRole('heading', { name: 'Rails of Tern 14' })).toBeVisible();
  await expect(page.locator('.proposal')).toHaveCount(3);
  await expect(page.locator('.proposal').first()).toContainText(/^.*If /);

  const summary = page.getByRole('region', { name: 'Suspects' }).getByRole('status');
  let taken = 0;
  while (!/^Most likely/.test((await summary.textContent()) ?? '') && taken < 9) {
    const what = await measure().getByLabel('What').inputValue();
    const rail = await measure().getByLabel('Rail', { exact: true }).inputValue();
    const wantsPower = what === 'volts' || what === 'input' || what === 'enable';
    if (what === 'input' || what === 'enable') {
      await page.keyboard.press('c');
      await expect(page.getByRole('region', { name: 'Cannot be reached' })).toContainText(rail);
      continue;
    }
    const { supply } = await mustAsk(page, 'benchState', {});
    if (supply.outputOn !== wantsPower) {
      await mustAsk(page, wantsPower ? 'outputOn' : 'outputOff', {});
      await page.waitForTimeout(1500);
      // What is proposed may differ now that power is on or off.
      continue;
    }
    await mustAsk(page, 'hands', { do: 'probe', point: NET[rail] ?? rail });
    await page.waitForTimeout(SETTLE_MS);
    const isOther = measure().getByRole('button', { name: /^Put the meter in/ });
    if ((await isOther.count()) > 0) {
      await page.keyboard.press('r');
      await expect(isOther).toHaveCount(0);
      await page.waitForTimeout(SETTLE_MS);
    }
    await page.keyboard.press('r');
    taken += 1;
    await expect(page.locator('.rails-count')).toContainText(new RegExp(`^${taken} measurement`));
  }
  await mustAsk(page, 'outputOff', {});
  await expect(summary).toContainText('a short to ground on MAIN_8V6');
  expect(taken, 'measurements to the shorted rail').toBeLessThanOrEqual(5);
  await expect(page.locator('.rails-count')).toContainText('the advice alone would have taken');
  await hasNoA11yTrouble('.rails');
});

test('the working opens under its rail with where its limits come from', async () => {
  const main = page.getByRole('table').getByRole('button', { name: 'MAIN_8V6' });
  if ((await main.getAttribute('aria-expanded')) !== 'true') await main.click();
  const working = page.locator('.rail-working');
  await expect(working).toContainText(/against 8\.6\sV|known-good/);
  await expect(working).toContainText('Limits:');
});

test('a typed reading that makes no sense is told at the field, and nothing is kept', async () => {
  const before = (await mustAsk(page, 'readJob', { id: jobId })).readings.length;
  await page.keyboard.press('t');
  const typed = page.getByRole('form', { name: 'Type the reading' });
  await typed.getByRole('textbox').fill('twelve');
  await page.keyboard.press('Enter');
  await expect(typed.getByRole('alert')).toBeVisible();
  await page.keyboard.press('Escape');
  await expect(typed).toHaveCount(0);
  expect((await mustAsk(page, 'readJob', { id: jobId })).readings).toHaveLength(before);
});

test('after the part is changed the same points come first, and the record sets both side by side', async () => {
  test.setTimeout(90_000);
  for (const action of ['lifted', 'fitted'] as const) {
    const part = {
      action,
      designator: 'C112',
      kind: 'ceramic capacitor',
      value: '22u 25V X5R',
      rail: 'MAIN_8V6',
      stateFound: action === 'lifted' ? 'shorted' : '',
      from: '',
    };
    await mustAsk(page, 'addPart', { jobId, part });
  }
  await mustAsk(page, 'hands', { do: 'replace-part', part: 'C112' });
  await expect(page.locator('.again-line')).toContainText('to be measured again');
  const first = await measure().getByRole('heading').textContent();
  expect(first).toMatch(/MAIN_8V6|DC_FUSED|ALW_3V3|SYS_/);
  await measure().getByLabel('Rail', { exact: true }).selectOption('MAIN_8V6');
  await measure().getByLabel('What').selectOption('ohms');
  await page.keyboard.press('t');
  await page.getByRole('form', { name: 'Type the reading' }).getByRole('textbox').fill('8k21');
  await page.keyboard.press('Enter');
  await expect(
    page
      .getByRole('row', { name: /MAIN_8V6/ })
      .getByText('As known-good')
      .first(),
  ).toBeVisible();

  // The mended rail reads as a good one does: marked so, it teaches the board.
  await page
    .locator('.rail-working')
    .getByLabel(/^From a good board/)
    .first()
    .click();
  await expect
    .poll(async () => {
      const known = await mustAsk(page, 'readBoard', { name: 'Tern 14' });
      return known?.learned.rails[1]?.expectedOhms;
    })
    .toEqual({ median: 8210, spread: 0, count: 1 });

  const file = path.join(launched.dataFolder, 'record.pdf');
  await launched.app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
  }, file);
  const written = await mustAsk(page, 'exportRecord', { jobId, paper: 'A4' });
  expect(written?.pages).toBeGreaterThan(0);
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  expect(text).toMatch(/Rail\s+Measured\s+Before parts were changed\s+Since/);
  expect(text).toMatch(/Shorted to ground/);
  expect(text).toMatch(/As known-good/);
  expect(text).toContain('a short to ground on MAIN_8V6');
});
