import { execFileSync } from 'node:child_process';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { askApp, mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { CHARGER_FEED, jobFields } from '../support/ledger-samples.ts';
import { TERN_RAILS } from '../support/tern-rails.ts';

/** The Tern's rails with a core, and places along its main rail that its layout names. */
const CORE_ROW = ['CORE_0V9', '0.9', '5%', 'MAIN_8V6', 'converter', '', 'CORE_0V9', '4.2'];
const PLACES = ['C110', 'C111', 'C112', 'C118', 'C120', 'C121'];
const TABLE = `${TERN_RAILS.replace('MAIN_8V6\t8.6\t5%\tDC_FUSED\tconverter\t\tMAIN_8V6', `MAIN_8V6\t8.6\t5%\tDC_FUSED\tconverter\t\tMAIN_8V6; ${PLACES.join('; ')}`)}\n${CORE_ROW.join('\t')}\n`;

let launched: LaunchedApp;
let page: Page;
let jobId = '';
test.describe.configure({ mode: 'serial' });
test.beforeAll(async () => {
  launched = await launchApp();
  page = launched.page;
  page.setDefaultTimeout(15_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
  );
  await expect
    .poll(async () => (await mustAsk(page, 'benchState', {})).supply.link, { timeout: 15_000 })
    .toBe('live');
  await mustAsk(page, 'saveBoard', { name: 'Tern 14', was: null, table: TABLE });
  const job = await mustAsk(page, 'createJob', jobFields({ boardModel: 'Tern 14' }));
  jobId = job.id;
  await mustAsk(page, 'openJobOnBench', { jobId });
  for (const item of (await mustAsk(page, 'readJob', { id: jobId })).items) {
    if (!item.beforePower) continue;
    await mustAsk(page, 'skipItem', { jobId, itemId: item.id, reason: 'pretend board' });
  }
  await mustAsk(page, 'hands', { do: 'put-board', board: 'tern-main-short' });
  await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
  await mustAsk(page, 'setLimit', { amps: 2 });
});
test.afterAll(() => launched.close());

const inject = () => page.getByRole('region', { name: 'Put current in' });
const supply = async () => (await mustAsk(page, 'benchState', {})).supply;
const isOn = async () => (await supply()).outputOn;
const hunts = () => mustAsk(page, 'listHunts', { jobId });
const hunt = async () => (await hunts()).at(-1)!;
const picture = async (name: string) => {
  const folder = process.env.WAKELINE_PICTURES;
  if (folder === undefined) return;
  await page.screenshot({ path: `${folder}/${name}-light.png` });
  await page.evaluate(() => document.documentElement.setAttribute('data-theme', 'dark'));
  await page.screenshot({ path: `${folder}/${name}-dark.png` });
  await page.evaluate(() => document.documentElement.setAttribute('data-theme', 'light'));
};

async function hasNoA11yTrouble(within: string): Promise<void> {
  const found = await new AxeBuilder({ page })
    .setLegacyMode()
    .include(within)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

async function begin(rail: string): Promise<void> {
  const before = (await hunts()).length;
  const begins = page.getByRole('form', { name: 'Begin a hunt' });
  if ((await begins.count()) === 0) {
    await page.getByRole('button', { name: 'Another hunt' }).click();
  }
  await begins.getByLabel('Along the rail').selectOption(rail);
  await begins.getByRole('button', { name: 'Begin a hunt' }).click();
  await expect.poll(async () => (await hunts()).length).toBe(before + 1);
}

/** Says what a person has to say, and asks to be let in. */
async function enter(): Promise<void> {
  const form = inject().getByRole('form', { name: 'Ready to inject' });
  await form.getByLabel(/^The leads are off the input/).check();
  const cells = form.getByLabel(/^No cell is attached/);
  if ((await cells.count()) > 0) await cells.check();
  await form.getByRole('button', { name: /^Leads are moved/ }).click();
}

test('a core is refused until its joint to the rail that feeds it is measured, and nothing is sent', async () => {
  await page.keyboard.press('F5');
  await page.getByRole('button', { name: /^Hunt a short/ }).click();
  await begin('CORE_0V9');
  await expect(inject().getByRole('list', { name: 'In the way' })).toContainText(
    'ohms between CORE_0V9 and MAIN_8V6 were not measured',
  );
  await enter();
  await expect(inject().getByRole('alert')).toContainText('were not measured');
  expect((await mustAsk(page, 'injectionState', {})).phase).toBe('off');
  expect(await supply()).toMatchObject({ setV: 19, limitA: 2 });
  await hasNoA11yTrouble('.hunt');
});

test('a cell that is marked attached keeps it shut, and so does an output that is on', async () => {
  await begin('MAIN_8V6');
  await mustAsk(page, 'setFeed', { feed: { ...CHARGER_FEED, cells: true } });
  await expect(inject()).toContainText('A cell is marked attached');
  await enter();
  await expect(inject().getByRole('alert')).toContainText('A cell is marked attached');
  await mustAsk(page, 'setFeed', { feed: CHARGER_FEED });
  const { id: huntId } = (await hunt()).hunt;
  await mustAsk(page, 'outputOn', {});
  const told = { huntId, purpose: 'rail', leadsAt: 'MAIN_8V6', cellsOff: true } as const;
  await expect.poll(isOn).toBe(true);
  const answer = await askApp(page, 'enterInjection', told);
  expect(answer).toMatchObject({ ok: false, trouble: { code: 'gate-closed' } });
  await mustAsk(page, 'outputOff', {});
  await expect.poll(isOn).toBe(false);
});

test('the leads are measured with their tips together and kept', async () => {
  await mustAsk(page, 'hands', { do: 'clip', point: 'each other' });
  await expect.poll(async () => (await supply()).volts, { timeout: 20_000 }).toBeLessThan(0.4);
  await inject()
    .getByRole('button', { name: /^Measure the leads/ })
    .click();
  await expect(inject().getByRole('heading', { name: 'Measuring the leads' })).toBeVisible();
  await page.keyboard.down('F8');
  await expect.poll(async () => (await hunt()).hunt.leadFrom).toBe('measured');
  await page.keyboard.up('F8');
  expect((await hunt()).hunt.leadOhm).toBeCloseTo(0.06, 2);
  await expect.poll(isOn).toBe(false);
  await inject()
    .getByRole('button', { name: /^Leave: output off/ })
    .click();
  await expect(inject().getByRole('form', { name: 'Ready to inject' })).toBeVisible();
  expect(await supply()).toMatchObject({ setV: 19, limitA: 2 });
});

test('holding the key puts current in, letting go takes it out, and so does losing the keyboard', async () => {
  await mustAsk(page, 'hands', { do: 'clip', point: 'MAIN_8V6' });
  await enter();
  const key = inject().getByRole('button', { name: /hold to put current in|let go to switch off/ });
  await expect(key).toContainText('Off: hold to put current in');
  expect(await supply()).toMatchObject({ setV: 0.3, limitA: 0.5, outputOn: false });
  // The core on the rail was not measured apart: its volts are the ceiling.
  await expect(inject()).toContainText(/ceiling 0\.90\sV/);
  await picture('short-ready');
  await page.keyboard.down('F8');
  await expect.poll(isOn).toBe(true);
  await expect(key).toContainText('On: let go to switch off');
  await expect(inject().getByTestId('injected-amps')).toContainText(/0\.1[34]\d/);
  await picture('short-on');
  await page.keyboard.up('F8');
  await expect.poll(isOn, { timeout: 3000 }).toBe(false);
  // A machine so busy that the window falls silent for a moment is off too, and says so.
  await expect(inject().getByRole('status').first()).toContainText(/^Off: /);
  await hasNoA11yTrouble('.hunt');

  await page.keyboard.down('F8');
  await expect.poll(isOn).toBe(true);
  await page.evaluate(() => window.dispatchEvent(new Event('blur')));
  await expect.poll(isOn, { timeout: 3000 }).toBe(false);
  await page.keyboard.up('F8');

  // Another view takes the key away with it.
  await page.keyboard.down('F8');
  await expect.poll(isOn).toBe(true);
  await page.keyboard.press('F2');
  await expect.poll(isOn, { timeout: 3000 }).toBe(false);
  await page.keyboard.up('F8');
  await page.keyboard.press('F5');
  await expect(key).toBeVisible();

  // F9 is off from anywhere, and the key has to be pressed anew.
  await page.keyboard.down('F8');
  await expect.poll(isOn).toBe(true);
  await page.keyboard.press('F9');
  await expect.poll(isOn, { timeout: 3000 }).toBe(false);
  await page.waitForTimeout(800);
  expect(await isOn()).toBe(false);
  await page.keyboard.up('F8');
});

test('a window that hangs with the key held is switched off within a second and a half', async () => {
  await page.keyboard.down('F8');
  await expect.poll(isOn).toBe(true);
  // The page stands still and says nothing any more; main is asked from its own side.
  const hung = page.evaluate(() => {
    const endMs = performance.now() + 2500;
    while (performance.now() < endMs);
  });
  const before = Date.now();
  await hung;
  expect(Date.now() - before).toBeGreaterThan(1000);
  await page.keyboard.up('F8');
  const { phase, said } = await mustAsk(page, 'injectionState', {});
  expect(phase).toBe('ready');
  expect(said).toMatch(/went silent|released/);
  expect(await isOn()).toBe(false);
});

test('the millivolts along the rail lead to the shorted part', async () => {
  test.setTimeout(180_000);
  await mustAsk(page, 'meterFunction', { quantity: 'volts' });
  const points = (await hunt()).hunt.points.map(({ name }) => name);
  expect(points).toEqual(['MAIN_8V6', ...PLACES]);
  const aim = (name: string) =>
    page.getByRole('table').getByRole('button', { name, exact: true }).click();
  const readings = async () =>
    (await hunt()).hunt.points.reduce((sum, point) => sum + point.readings.length, 0);
  const read = async (name: string): Promise<void> => {
    await mustAsk(page, 'hands', { do: 'probe', point: name });
    await aim(name);
    // What the meter told last belongs to the point before.
    await page.waitForTimeout(900);
    const before = await readings();
    await expect
      .poll(
        async () => {
          await page.keyboard.press('r');
          await page.waitForTimeout(300);
          return readings();
        },
        { timeout: 12_000, intervals: [900] },
      )
      .toBeGreaterThan(before);
  };
  for (const name of points) await read(name);
  // More current parts the points better: one step of the limit changes nothing where volts hold it.
  for (let i = 0; i < 12; i += 1) {
    if ((await mustAsk(page, 'injectionState', {})).setV >= 0.9 - 1e-9) break;
    await inject()
      .getByRole('button', { name: /^Volts: \+/ })
      .click();
    await page.waitForTimeout(100);
  }
  await expect.poll(async () => (await supply()).setV).toBeCloseTo(0.9, 6);
  const isRead = async (name: string) => {
    const { columns } = (await hunt()).found;
    const { id } = (await hunt()).hunt.points.find((point) => point.name === name)!;
    return columns.points.find(({ pointId }) => pointId === id)?.first != null;
  };
  for (const name of points) {
    for (let tries = 0; tries < 5 && !(await isRead(name)); tries += 1) {
      await page.keyboard.down('F8');
      await expect.poll(isOn).toBe(true);
      await page.waitForTimeout(500);
      await read(name);
      await page.keyboard.up('F8');
      await expect.poll(isOn).toBe(false);
    }
  }
  const verdict = page.locator('.gradient-verdict');
  await expect(verdict).toContainText('C112 is nearest');
  await expect(verdict).toContainText('Nearest');
  await page.getByRole('button', { name: 'Keep as a finding' }).click();
  await expect.poll(async () => (await hunt()).hunt.finding?.claim ?? '').toContain('C112');
  await page.locator('.hunt .rails-head').scrollIntoViewIfNeeded();
  await picture('short-found');
  await hasNoA11yTrouble('.hunt');
});

test('leaving brings back what was set, its run is no wake-up, and all of it survives a restart', async () => {
  await inject()
    .getByRole('button', { name: /^Leave: output off/ })
    .click();
  await expect.poll(async () => (await supply()).setV).toBe(19);
  expect(await supply()).toMatchObject({ limitA: 2, outputOn: false });
  await expect
    .poll(async () => (await mustAsk(page, 'benchState', {})).run?.kind, { timeout: 20_000 })
    .toBe('idle');
  const { runs } = await mustAsk(page, 'readJob', { id: jobId });
  const injected = runs.filter(({ kind }) => kind === 'injection');
  expect(injected.length).toBeGreaterThan(0);
  const last = injected.at(-1)!;
  const alike = await mustAsk(page, 'runsToCompare', { jobId });
  expect(alike.map(({ run }) => run.id)).not.toContain(last.id);
  const line = (await mustAsk(page, 'listJobs', { search: '', limit: 5 })).find(
    ({ id }) => id === jobId,
  );
  expect(line?.runs).toBe(runs.filter(({ kind }) => kind === 'powered').length);
  const before = await hunts();
  await page.keyboard.press('F2');
  const file = path.join(launched.dataFolder, 'record.pdf');
  await launched.app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
  }, file);
  expect((await mustAsk(page, 'exportRecord', { jobId, paper: 'A4' }))?.pages).toBeGreaterThan(0);
  const text = execFileSync('pdftotext', ['-layout', file, '-'], { encoding: 'utf8' });
  expect(text).toContain('Hunting the short');
  expect(text).toMatch(/MAIN_8V6, against ground/);
  expect(text).toMatch(/C112\s+.*nearest/);
  expect(text).toContain('C112 is nearest');
  const { dataFolder } = launched;
  await launched.app.close();
  launched = await launchApp({ dataFolder });
  page = launched.page;
  expect(await hunts()).toEqual(before);
});
