import type { Page } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import type { BenchHands } from './bench-hands.ts';
import { expect } from './expect.ts';

const SETTLE_MS = 900;
/** Volts that the demo raises the injection to, by hand, a step at a time: below the ceiling. */
const RAISED_V = 0.9;

/** Puts current into a shorted rail while a key is held, reads millivolts along it, keeps the verdict. */
export async function huntShort(
  page: Page,
  hands: BenchHands,
  jobId: string,
  rail: string,
  say: (line: string) => void,
): Promise<string> {
  await page.keyboard.press('F5');
  await page.getByRole('button', { name: /^Hunt a short/ }).click();
  const begin = page.getByRole('form', { name: 'Begin a hunt' });
  await begin.getByLabel('Along the rail').selectOption(rail);
  await begin.getByRole('button', { name: 'Begin a hunt' }).click();
  const hunt = async () => (await mustAsk(page, 'listHunts', { jobId })).at(-1)!;
  await expect.poll(async () => (await hunt())?.hunt.points.length ?? 0).toBeGreaterThan(1);
  const inject = page.getByRole('region', { name: 'Put current in' });
  await hands.clip(rail);
  const ready = inject.getByRole('form', { name: 'Ready to inject' });
  await ready.getByLabel(/^The leads are off the input/).check();
  const cells = ready.getByLabel(/^No cell is attached/);
  if ((await cells.count()) > 0) await cells.check();
  await ready.getByRole('button', { name: /^Leads are moved/ }).click();
  await mustAsk(page, 'meterFunction', { quantity: 'volts' });
  const isOn = async () => (await mustAsk(page, 'benchState', {})).supply.outputOn;
  const points = (await hunt()).hunt.points;
  const readings = async () =>
    (await hunt()).hunt.points.reduce((sum, point) => sum + point.readings.length, 0);
  const read = async (name: string): Promise<void> => {
    await hands.probe(name);
    await page.getByRole('table').getByRole('button', { name, exact: true }).click();
    await page.waitForTimeout(SETTLE_MS);
    const before = await readings();
    await expect
      .poll(
        async () => {
          await page.keyboard.press('r');
          await page.waitForTimeout(300);
          return readings();
        },
        { timeout: 12_000, intervals: [SETTLE_MS] },
      )
      .toBeGreaterThan(before);
  };
  for (const { name } of points) await read(name);
  const setV = async () => (await mustAsk(page, 'injectionState', {})).setV;
  for (let i = 0; i < 12 && (await setV()) < RAISED_V - 1e-9; i += 1) {
    await inject.getByRole('button', { name: /^Volts: \+/ }).click();
    await page.waitForTimeout(100);
  }
  say(`current goes in at up to ${(await setV()).toFixed(1)} V, while the key is held`);
  const isRead = async (pointId: string) =>
    (await hunt()).found.columns.points.find((one) => one.pointId === pointId)?.first != null;
  for (const { id, name } of points) {
    for (let tries = 0; tries < 5 && !(await isRead(id)); tries += 1) {
      await page.keyboard.down('F8');
      await expect.poll(isOn).toBe(true);
      await page.waitForTimeout(500);
      await read(name);
      await page.keyboard.up('F8');
      await expect.poll(isOn).toBe(false);
    }
  }
  const verdict = (await page.locator('.gradient-verdict').textContent()) ?? '';
  await page.getByRole('button', { name: 'Keep as a finding' }).click();
  await expect.poll(async () => (await hunt()).hunt.finding?.claim ?? '').not.toBe('');
  return verdict;
}

/** Leaves the injection: the output stays off and what was set before comes back. */
export async function leaveHunt(page: Page, hands: BenchHands): Promise<void> {
  const inject = page.getByRole('region', { name: 'Put current in' });
  await inject.getByRole('button', { name: /^Leave: output off/ }).click();
  await hands.clip(null);
}
