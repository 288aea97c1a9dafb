import { expect, type Page, test } from '@playwright/test';
import { writeRailTable } from '../../core/rails/rail-table.ts';
import { randomBoard } from '../core/rails/random-board.ts';
import { SAMPLE_TABLE } from '../core/rails/sample-board.ts';
import { mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';

let launched: LaunchedApp;
let page: Page;
test.beforeEach(async () => {
  launched = await launchApp();
  page = launched.page;
  page.setDefaultTimeout(15_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1280, 720),
  );
});
test.afterEach(() => launched.close());

async function takeIn(boardModel: string | null): Promise<string> {
  const job = await mustAsk(page, 'createJob', {
    boardModel,
    serialNumber: 'F-7',
    customer: 'Quill & Daughter',
    symptom: 'Does not start',
    liquid: 'no',
    matters: 'device',
    earlierRepairs: '',
    accessories: '',
    promised: '',
    board: { statedInputV: 19, statedLimitA: 2, runningA: null, runsFlat: null },
    template: 'does-not-turn-on',
  });
  await mustAsk(page, 'openJobOnBench', { jobId: job.id });
  for (const item of (await mustAsk(page, 'readJob', { id: job.id })).items) {
    if (!item.beforePower) continue;
    await mustAsk(page, 'skipItem', { jobId: job.id, itemId: item.id, reason: 'pretend board' });
  }
  return job.id;
}

test('readings of a board that nobody knows stand alone until it has a name, then on its rails', async () => {
  const jobId = await takeIn(null);
  await page.keyboard.press('F5');
  await expect(page.getByRole('heading', { name: "This job's board is unknown" })).toBeVisible();
  const form = page.getByRole('form', { name: 'Another reading' });
  await form.getByLabel('Where').fill('main');
  await form.getByLabel(/typed|Value/).fill('3.1');
  await page.keyboard.press('Enter');
  const alone = page.getByRole('region', { name: 'No rails known' });
  await expect(alone).toContainText(/3[.,]1\s?V/);

  await mustAsk(page, 'saveBoard', { name: 'Finch 12', was: null, table: SAMPLE_TABLE });
  await page.getByRole('button', { name: 'Open the job' }).click();
  await page
    .getByRole('button', { name: /^Change/ })
    .first()
    .click();
  await page.getByLabel('Board model (empty: unknown)').fill('Finch 12');
  await page.getByRole('button', { name: 'Keep facts' }).click();
  await expect
    .poll(async () => (await mustAsk(page, 'readJob', { id: jobId })).job.boardModel)
    .toBe('Finch 12');

  await page.keyboard.press('F5');
  await expect(page.getByRole('heading', { name: 'Rails of Finch 12' })).toBeVisible();
  const main = page.getByRole('row', { name: /^MAIN/ });
  // Whether the bench was recording with its output off by then decides which of the two it is.
  await expect(main.locator('.verdict')).toHaveText(/^(Low|Back-fed)$/);
  await expect(page.locator('.rails-count')).toContainText('1 measurement');
});

test("the shop's own states are kept, offered, and thought of when a board seems to be in another", async () => {
  await mustAsk(page, 'saveBoard', { name: 'Finch 12', was: null, table: SAMPLE_TABLE });
  const jobId = await takeIn('Finch 12');
  await page.keyboard.press('F6');
  const states = page.getByRole('form', { name: 'States of the shop' });
  await states.getByLabel('States a board can be in').fill('plugged, sleep, on');
  await states.getByRole('button', { name: 'Save states' }).click();
  await expect
    .poll(async () => (await mustAsk(page, 'readShopStates', {})).defined)
    .toEqual(['plugged', 'sleep', 'on']);

  await page.keyboard.press('F5');
  const pick = page.getByLabel('Board is in');
  await expect(pick.locator('option')).toHaveText(['No state named', 'plugged', 'sleep', 'on']);
  await pick.selectOption('on');
  const add = (rail: string, value: number) =>
    mustAsk(page, 'addRailReading', {
      reading: {
        jobId,
        itemId: null,
        runId: null,
        quantity: 'volts',
        value,
        overload: false,
        decimals: 2,
        place: rail,
        expectedLow: null,
        expectedHigh: null,
        source: 'typed',
      },
      rail,
      point: 'output',
      against: null,
      state: 'on',
      powered: true,
    });
  for (const [rail, value] of [
    ['S_5V', 5],
    ['MEM', 1.2],
    ['CORE', 0],
    ['IO_1V05', 0],
  ] as const) {
    await add(rail, value);
  }
  const suspects = page.getByRole('region', { name: 'Suspects' });
  await expect(suspects.locator('.contradiction')).toContainText('is the board in sleep?');

  await pick.selectOption('sleep');
  await expect(suspects.locator('.contradiction')).toHaveCount(0);
  // The state that was said stays while the technician looks elsewhere.
  await page.keyboard.press('F2');
  await page.keyboard.press('F5');
  await expect(page.getByLabel('Board is in')).toHaveValue('sleep');
});

test('a tree of 200 rails is one stop of the keyboard, walked along feeds, zoomed and picked from', async () => {
  test.setTimeout(90_000);
  const rook = { ...randomBoard(200, 3), name: 'Rook 200' };
  await mustAsk(page, 'saveBoard', { name: 'Rook 200', was: null, table: writeRailTable(rook) });
  await takeIn('Rook 200');
  await page.keyboard.press('F5');
  const tree = page.getByRole('figure', { name: 'Rails of Rook 200' });
  await expect(tree.locator('button.tree-node')).toHaveCount(200);
  await expect(tree.locator('button.tree-node[tabindex="0"]')).toHaveCount(1);

  const focused = () => page.evaluate(() => (document.activeElement as HTMLElement)?.dataset.rail);
  await tree.locator('[data-rail="INPUT"]').focus();
  await page.keyboard.press('ArrowRight');
  const child = await focused();
  expect(rook.rails.find(({ name }) => name === child)?.fedBy).toContain('INPUT');
  await page.keyboard.press('ArrowLeft');
  expect(await focused()).toBe('INPUT');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  await expect(page.getByLabel('Rail', { exact: true })).toHaveValue(child ?? '');
  // What is near a rail is on the page: verdict signs hold a shape and a word beside their tint.
  await expect(tree.locator(`[data-rail="${child}"] .verdict`)).toHaveText('Not measured');
  await expect(tree.locator(`[data-rail="${child}"] .verdict svg`)).toBeVisible();

  const paper = tree.locator('.rail-tree-paper');
  const before = (await paper.boundingBox())?.width ?? 0;
  await tree.locator(`[data-rail="${child}"]`).focus();
  await page.keyboard.press('-');
  await expect.poll(async () => (await paper.boundingBox())?.width ?? 0).toBeLessThan(before);
  await page.keyboard.press('+');
  await expect.poll(async () => (await paper.boundingBox())?.width ?? 0).toBe(before);
  await tree.getByRole('button', { name: 'Whole tree' }).click();
  await expect.poll(async () => (await paper.boundingBox())?.width ?? 0).toBeLessThan(before / 2);

  await expect(page.getByRole('table').getByRole('row')).toHaveCount(3);
  await page.getByRole('button', { name: 'All 200 rails' }).click();
  await expect(page.getByRole('table').getByRole('row')).toHaveCount(202);
});
