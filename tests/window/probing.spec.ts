import { existsSync, mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { TERN_TABLE } from '../support/tern-rails.ts';

/** The pretend bench's hands touch; the window, the watch and the ledger do the rest. */
let launched: LaunchedApp;
let page: Page;
let dataFolder: string;
let jobId: string;

const hands = (point: string | null) => mustAsk(page, 'hands', { do: 'probe', point });
const probe = () => mustAsk(page, 'probeState', {});
const itemOf = async (step: string) =>
  (await mustAsk(page, 'readJob', { id: jobId })).items.find((one) => one.step === step)!;
const settle = async (step: string) => {
  const item = await itemOf(step);
  await mustAsk(page, 'doItem', { jobId, itemId: item.id, note: '' });
};

/** Touches a point until a reading is taken, then lifts for longer than a moment. */
async function touch(point: string): Promise<void> {
  const before = (await probe()).takes;
  await hands(point);
  await expect.poll(async () => (await probe()).takes, { timeout: 12_000 }).toBe(before + 1);
  await hands(null);
  await expect.poll(async () => (await probe()).phase, { timeout: 5000 }).toBe('armed');
  await page.waitForTimeout(900);
}

// One job from test to test: a second try begins the file again.
test.describe.configure({ mode: 'serial' });

test.beforeAll(async () => {
  dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-probing-'));
  // Sleep is blocked only where a session bus could bring it; none has to answer here.
  const env = { DBUS_SESSION_BUS_ADDRESS: 'unix:path=/nonexistent/bus' };
  launched = await launchApp({ dataFolder, env });
  page = launched.page;
  const { pretend } = await mustAsk(page, 'benchState', {});
  await mustAsk(page, 'hands', { do: 'put-board', board: pretend!.shelf[0]!.key });
  const job = await mustAsk(page, 'createJob', jobFields({ boardModel: pretend!.shelf[0]!.name }));
  jobId = job.id;
  await mustAsk(page, 'openJobOnBench', { jobId });
  const ready = ['cells-unplugged', 'capacitors-discharged', 'looked-over', 'clean-before-soak'];
  for (const step of ready) {
    await settle(step);
  }
  await mustAsk(page, 'meterFunction', { quantity: 'ohms' });
});

test.afterAll(async () => {
  await launched.close();
  rmSync(dataFolder, { recursive: true, force: true });
});

test('takes ohms along the list by touch alone, with a tone, and undoes and skips by key', async () => {
  // The key means the list only once the window has heard of the job.
  await expect(page.getByRole('button', { name: /^Along the list/ })).toBeVisible();
  await page.keyboard.press('b');
  await expect(page.getByText('Hands-free, along the list')).toBeVisible();
  await expect(page.getByTestId('probe-phase')).toContainText('Touch the point');
  await touch('F1 board side');
  expect(await itemOf('ohms-input')).toMatchObject({
    state: 'done',
    readings: [{ quantity: 'ohms', source: 'meter', overload: false }],
  });
  expect((await mustAsk(page, 'benchState', {})).meter.quantity).toBe('ohms');
  await expect(page.getByTestId('last-tone')).toHaveAttribute('data-played', 'taken');
  await page.keyboard.press('u');
  await expect.poll(async () => (await itemOf('ohms-input')).state).toBe('open');
  await page.keyboard.press('k');
  await expect.poll(async () => (await probe()).next?.title).toContain('main rail');
  await touch('MAIN_8V6');
  expect(await itemOf('ohms-main-rail')).toMatchObject({ state: 'done' });
  await page.keyboard.press('b');
  await expect.poll(async () => (await probe()).along).toBe('off');
});

test('refuses ohms on a live board, says why, and stores nothing', async () => {
  for (const step of ['ohms-input', 'ohms-main-to-core']) {
    const { id, state } = await itemOf(step);
    if (state === 'open') {
      await mustAsk(page, 'skipItem', { jobId, itemId: id, reason: 'tried already' });
    }
  }
  await mustAsk(page, 'meterFunction', { quantity: 'ohms' });
  await mustAsk(page, 'startProbing', { along: 'free', itemIds: null });
  await page.waitForTimeout(700);
  await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
  await mustAsk(page, 'outputOn', {});
  await page.waitForTimeout(2500);
  const { takes } = await probe();
  await hands('ALW_3V3');
  await expect.poll(async () => (await probe()).phase, { timeout: 6000 }).toBe('refused');
  await expect(page.getByText('No ohms while the output is on')).toBeVisible();
  await expect(page.getByTestId('last-tone')).toHaveAttribute('data-played', 'refused');
  await page.waitForTimeout(2000);
  expect((await probe()).takes).toBe(takes);
  await hands(null);
});

test('keeps volts at any point in order, takes a dead rail by force, and names them by a tap', async () => {
  await mustAsk(page, 'meterFunction', { quantity: 'volts' });
  await mustAsk(page, 'startProbing', { along: 'free', itemIds: null });
  await expect.poll(async () => (await probe()).phase, { timeout: 5000 }).toBe('armed');
  await touch('MAIN_8V6');
  await hands('GND');
  await page.waitForTimeout(1500);
  expect((await probe()).takes).toBeGreaterThan(0);
  const before = (await probe()).takes;
  await page.keyboard.press('y');
  await expect.poll(async () => (await probe()).takes).toBe(before + 1);
  await hands(null);
  const { taken } = await probe();
  expect(taken.map((one) => one.place)).toEqual(['', '']);
  expect(taken[1]!.value).toBeGreaterThan(8);
  expect(Math.abs(taken[0]!.value!)).toBeLessThan(0.01);
  await page.getByLabel(/^Where was/).fill('main');
  await page.getByRole('button', { name: 'Main rail', exact: true }).click();
  await expect.poll(async () => (await itemOf('volts-main-rail')).state).toBe('done');
  await page.getByLabel(/^Where was/).fill('gnd clip');
  await page.keyboard.press('Enter');
  await expect.poll(async () => (await probe()).taken[0]?.place).toBe('gnd clip');
});

test('shows the readout on top, locked like the main window, and remembers where it was put', async () => {
  await mustAsk(page, 'readout', { show: true });
  await expect.poll(() => launched.app.windows().length).toBe(2);
  const readout = launched.app.windows().find((one) => one.url().includes('/readout/'))!;
  await hands('MAIN_8V6');
  await expect(readout.getByTestId('readout-reading')).toContainText('8.', { timeout: 6000 });
  await expect(readout.getByTestId('readout-amps')).toContainText('A');
  const size = await readout
    .getByTestId('readout-reading')
    .evaluate((element) => Number.parseFloat(getComputedStyle(element).fontSize));
  expect(size).toBeGreaterThanOrEqual(48);
  const answered = await readout.evaluate(() =>
    (
      globalThis as unknown as { wakeline: { probeState(args: object): Promise<{ ok: boolean }> } }
    ).wakeline.probeState({}),
  );
  expect(answered.ok).toBe(true);
  const locked = await launched.app.evaluate(({ BrowserWindow }) => {
    const window = BrowserWindow.getAllWindows().find((one) =>
      one.webContents.getURL().includes('/readout/'),
    )!;
    const contents = window.webContents as unknown as {
      getLastWebPreferences(): Record<string, unknown>;
    };
    const { contextIsolation, sandbox, nodeIntegration } = contents.getLastWebPreferences();
    const isOnTop = window.isAlwaysOnTop();
    window.setBounds({ x: 60, y: 80, width: 500, height: 260 });
    return { contextIsolation, sandbox, nodeIntegration, isOnTop };
  });
  expect(locked).toEqual({
    contextIsolation: true,
    sandbox: true,
    nodeIntegration: false,
    isOnTop: true,
  });
  const kept = path.join(dataFolder, 'readout-window.json');
  await expect
    .poll(() => existsSync(kept) && JSON.parse(readFileSync(kept, 'utf8')).width)
    .toBe(500);
  await mustAsk(page, 'readout', { show: false });
  await expect.poll(() => launched.app.windows().length).toBe(1);
  await mustAsk(page, 'readout', { show: true });
  await expect.poll(() => launched.app.windows().length).toBe(2);
  const bounds = await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()
      .find((one) => one.webContents.getURL().includes('/readout/'))!
      .getBounds(),
  );
  expect(bounds).toMatchObject({ width: 500, height: 260 });
  await mustAsk(page, 'readout', { show: false });
  await hands(null);
});

test('blocks sleep while a powered run is live', async () => {
  const isBlocked = () =>
    launched.app.evaluate(({ powerSaveBlocker }) =>
      Array.from({ length: 50 }, (_, id) => powerSaveBlocker.isStarted(id)).some(Boolean),
    );
  expect(await isBlocked()).toBe(true);
  await mustAsk(page, 'outputOff', {});
  await expect.poll(isBlocked, { timeout: 6000 }).toBe(false);
});

test('confirms an armed output by the pedal, marks a wake request, and holds where it is set so', async () => {
  await mustAsk(page, 'stopProbing', {});
  await page.keyboard.press('F1');
  await page.keyboard.press('o');
  await page.waitForTimeout(500);
  await page.keyboard.press('F8');
  const isOn = async () => (await mustAsk(page, 'benchState', {})).supply.outputOn;
  await expect.poll(isOn, { timeout: 6000 }).toBe(true);
  await page.waitForTimeout(1200);
  await page.keyboard.press('F8');
  await expect(page.getByTestId('heard-said')).toContainText('Wake request marked');
  await page.keyboard.press('F9');
  await expect.poll(isOn, { timeout: 6000 }).toBe(false);

  await page.evaluate(() => localStorage.setItem('wakeline.pedal-held', 'on'));
  await page.waitForTimeout(700);
  await page.keyboard.press('o');
  await page.waitForTimeout(500);
  await page.keyboard.down('F8');
  await expect.poll(isOn, { timeout: 6000 }).toBe(true);
  await page.waitForTimeout(1500);
  expect(await isOn()).toBe(true);
  await page.keyboard.up('F8');
  await expect.poll(isOn, { timeout: 3000 }).toBe(false);
  await page.evaluate(() => localStorage.removeItem('wakeline.pedal-held'));
});

test('tells the desktop of a lasting stage and of a soak, unless that is off', async () => {
  await launched.app.evaluate(({ Notification }) => {
    const shown: string[] = [];
    Object.assign(globalThis, { shownNotices: shown });
    Notification.isSupported = () => true;
    Notification.prototype.show = function (this: { title: string }) {
      shown.push(this.title);
    };
  });
  const shown = () =>
    launched.app.evaluate(() => [
      ...(globalThis as unknown as { shownNotices: string[] }).shownNotices,
    ]);
  const usual = await mustAsk(page, 'attention', {});
  await mustAsk(page, 'outputOn', {});
  await expect.poll(shown, { timeout: 20_000 }).toContain('Running');
  await mustAsk(page, 'startSoak', { minutes: 0.05, lowA: null, highA: 0.001 });
  await expect.poll(shown, { timeout: 12_000 }).toContain('Soak failed');
  expect(await itemOf('soaked')).toMatchObject({ state: 'open' });
  await mustAsk(page, 'setAttention', { ...usual, noticeSoak: false });
  await mustAsk(page, 'startSoak', { minutes: 0.05, lowA: null, highA: 0.001 });
  await expect.poll(async () => (await mustAsk(page, 'soakState', {})).isRunning).toBe(false);
  expect((await shown()).filter((title) => title === 'Soak failed')).toHaveLength(1);
  await mustAsk(page, 'setAttention', usual);
  await mustAsk(page, 'outputOff', {});
  await page.waitForTimeout(1500);
});

test('soaks, and puts the verdict with its numbers on the checklist', async () => {
  await mustAsk(page, 'outputOn', {});
  await page.waitForTimeout(3000);
  await mustAsk(page, 'startSoak', { minutes: 0.05, lowA: 0, highA: 5 });
  await expect(page.getByTestId('soak-line')).toContainText('left');
  await expect.poll(async () => (await itemOf('soaked')).state, { timeout: 15_000 }).toBe('done');
  expect((await itemOf('soaked')).reason).toMatch(/^Soak passed: 3 s of 0.05 min; draw 0\./);
});

test('tells who comes back what happened meanwhile', async () => {
  await page.evaluate(() => window.dispatchEvent(new Event('blur')));
  await mustAsk(page, 'outputOff', {});
  await page.waitForTimeout(1500);
  await page.evaluate(() => {
    const now = Date.now.bind(Date);
    Date.now = () => now() + 5 * 60_000;
    window.dispatchEvent(new Event('focus'));
    Date.now = now;
  });
  const panel = page.getByTestId('meanwhile');
  await expect(panel).toContainText('Output off');
  expect(await panel.locator('li').count()).toBeLessThanOrEqual(10);
  await panel.getByRole('button', { name: 'Seen' }).click();
  await expect(panel).toHaveCount(0);
});

test('takes the rails of a board by touch, onto the rail that is measured', async () => {
  // A board that has just run holds its volts for long: ohms would rightly not settle on it.
  await mustAsk(page, 'hands', { do: 'put-board', board: 'plover-healthy' });
  await mustAsk(page, 'hands', { do: 'put-board', board: 'tern-healthy' });
  await mustAsk(page, 'saveBoard', { name: 'Tern 14', was: null, table: TERN_TABLE });
  const job = await mustAsk(page, 'createJob', jobFields({ boardModel: 'Tern 14' }));
  await mustAsk(page, 'openJobOnBench', { jobId: job.id });
  for (const item of (await mustAsk(page, 'readJob', { id: job.id })).items) {
    if (item.beforePower) {
      await mustAsk(page, 'skipItem', { jobId: job.id, itemId: item.id, reason: 'pretend board' });
    }
  }
  await page.keyboard.press('F5');
  const measure = page.getByRole('region', { name: 'Measure', exact: true });
  await measure.getByLabel('Rail', { exact: true }).selectOption('MAIN_8V6');
  await measure.getByLabel('What').selectOption('ohms');
  await page.keyboard.press('h');
  await expect.poll(async () => (await probe()).along, { timeout: 5000 }).toBe('view');
  await expect.poll(async () => (await probe()).phase, { timeout: 5000 }).toBe('armed');
  await touch('MAIN_8V6');
  const { readings } = await mustAsk(page, 'readJob', { id: job.id });
  expect(readings).toMatchObject([{ quantity: 'ohms', source: 'meter', overload: false }]);
  expect(readings[0]?.place).toContain('MAIN_8V6');
  await page.keyboard.press('h');
  await expect.poll(async () => (await probe()).along).toBe('off');
});

test('keeps what was chosen of sounds and notifications', async () => {
  await page.keyboard.press('F4');
  await page.getByLabel('Say the value aloud').check();
  await page.getByLabel('A guard tripped').uncheck();
  await page.getByLabel('A tone whose pitch follows').selectOption('draw');
  const file = path.join(dataFolder, 'attention.json');
  await expect
    .poll(() => (existsSync(file) ? JSON.parse(readFileSync(file, 'utf8')) : {}))
    .toMatchObject({ speak: true, noticeGuard: false, follow: 'draw' });
});
