import AxeBuilder from '@axe-core/playwright';
import { expect, test } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';

test('a limit entered on the sheet switches the output off and says why', async () => {
  const { page, close } = await launchApp();
  await expect.poll(async () => (await mustAsk(page, 'benchState', {})).supply.link).toBe('live');
  await mustAsk(page, 'hands', { do: 'put-board', board: 'tern-healthy' });
  await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
  await page.keyboard.press('e');
  const panel = page.getByRole('dialog', { name: 'Guard' });
  await expect(panel).toContainText('supervision, not fault protection');
  const amps = panel.getByLabel('Amps above', { exact: true });
  await amps.fill('a lot');
  await panel.getByLabel('Amps above: then').selectOption('off');
  await panel.getByRole('button', { name: 'Put in force' }).click();
  await expect(amps).toHaveAttribute('aria-invalid', 'true');
  await amps.fill('50 mA');
  const found = await new AxeBuilder({ page }).include('.guard-panel').setLegacyMode().analyze();
  expect(found.violations.map(({ id }) => id)).toEqual([]);
  if (process.env.WAKELINE_PICTURES) {
    await page.screenshot({ path: `${process.env.WAKELINE_PICTURES}/guard-light.png` });
    await page.evaluate(() => document.documentElement.setAttribute('data-theme', 'dark'));
    await page.screenshot({ path: `${process.env.WAKELINE_PICTURES}/guard-dark.png` });
  }
  await panel.getByRole('button', { name: 'Put in force' }).click();
  await expect(panel).toBeHidden();
  await expect
    .poll(async () => (await mustAsk(page, 'benchState', {})).watcherReady, { timeout: 15_000 })
    .toBe(true);
  await mustAsk(page, 'outputOn', {});
  await expect(page.getByTestId('alarm')).toContainText("is above the guard's 0.05 A", {
    timeout: 15_000,
  });
  await expect
    .poll(async () => (await mustAsk(page, 'benchState', {})).supply.outputOn)
    .toBe(false);
  await close();
});
