import { mkdtempSync, rmSync } from 'node:fs';
import { cpus, loadavg, tmpdir } from 'node:os';
import path from 'node:path';
import { expect, type Page, test } from '@playwright/test';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { launchApp } from '../support/launch-app.ts';
import { recordLongRun } from '../support/long-run.ts';

/** The most that the window may be deaf for (W3C Long Tasks: a task of more than 50 ms). */
const LONG_TASK_MS = 50;

/** The same on a machine that has more to do than processors: everything takes that much longer. */
const allowedMs = () => LONG_TASK_MS * Math.max(1, loadavg()[0]! / cpus().length);

/** Tasks of more than 50 ms while `act` goes on, by the window's own PerformanceObserver. */
async function longTasks(page: Page, act: () => Promise<void>): Promise<readonly number[]> {
  await page.evaluate(() => {
    const kept = globalThis as unknown as { tasks: number[]; watch: PerformanceObserver };
    kept.tasks = [];
    kept.watch = new PerformanceObserver((list) => {
      for (const entry of list.getEntries()) kept.tasks.push(Math.round(entry.duration));
    });
    kept.watch.observe({ type: 'longtask' });
  });
  await act();
  await page.waitForTimeout(300);
  return page.evaluate(() => {
    const kept = globalThis as unknown as { tasks: number[]; watch: PerformanceObserver };
    kept.watch.disconnect();
    return kept.tasks;
  });
}

/**
 * The same, of the quietest of three goes: what is long every time is the window's own doing, what
 * is long once is another process on the machine.
 */
async function steadyLongTasks(page: Page, act: () => Promise<void>): Promise<readonly number[]> {
  let best: readonly number[] | null = null;
  for (let go = 0; go < 3 && (best === null || best.length > 0); go += 1) {
    const found = await longTasks(page, act);
    if (best === null || Math.max(0, ...found) < Math.max(0, ...best)) best = found;
  }
  return best ?? [];
}

test('an eight-hour run opens, zooms, pans and scrubs without a long task', async () => {
  test.setTimeout(300_000);
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-long-'));
  const ledger = await openLedgerInThread({ path: path.join(dataFolder, 'ledger.sqlite') });
  await recordLongRun(ledger, { hours: 8, hz: 20 });
  await ledger.close();
  const { page, close } = await launchApp({ dataFolder });
  try {
    await page.getByRole('navigation').getByRole('button', { name: 'Replay' }).click();
    const line = page.locator('.run-line').first();
    await expect(line).toBeVisible();
    const opening = await steadyLongTasks(page, async () => {
      const other = page.getByRole('button', { name: 'Other run' });
      if (await other.isVisible()) await other.click();
      await line.getByRole('button', { name: 'Replay' }).click();
      await expect(page.locator('.band-words')).toBeAttached({ timeout: 30_000 });
      await page.waitForTimeout(4_000);
    });
    const plot = page.locator('.trace-plot');
    const box = (await plot.boundingBox())!;
    const middle = { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    const zooming = await steadyLongTasks(page, async () => {
      await page.mouse.move(middle.x, middle.y);
      for (let i = 0; i < 30; i += 1) {
        await page.mouse.wheel(0, i < 20 ? -120 : 120);
        await page.waitForTimeout(30);
      }
    });
    const panning = await steadyLongTasks(page, async () => {
      await page.mouse.move(middle.x, middle.y);
      await page.mouse.down();
      for (let i = 0; i < 40; i += 1) {
        await page.mouse.move(middle.x + 200 * Math.sin(i / 5), middle.y);
        await page.waitForTimeout(16);
      }
      await page.mouse.up();
    });
    const keys = await steadyLongTasks(page, async () => {
      await plot.focus();
      for (const key of ['+', '+', '+', 'ArrowLeft', 'ArrowRight', 'Shift+ArrowLeft', '-', 'End']) {
        await page.keyboard.press(key);
        await page.waitForTimeout(40);
      }
      await page.keyboard.press('4');
    });
    const scrubbing = await steadyLongTasks(page, async () => {
      const scrub = (await page.locator('.scrub').boundingBox())!;
      const y = scrub.y + scrub.height / 2;
      await page.mouse.move(scrub.x + scrub.width - 4, y);
      await page.mouse.down();
      for (let i = 0; i < 40; i += 1) {
        await page.mouse.move(scrub.x + scrub.width * (1 - i / 50), y);
        await page.waitForTimeout(16);
      }
      await page.mouse.up();
    });
    const found = { opening, zooming, panning, keys, scrubbing };
    const most = allowedMs();
    console.log('long tasks, ms:', JSON.stringify(found), `allowed ${Math.round(most)}`);
    for (const [what, tasks] of Object.entries(found)) {
      expect(Math.max(0, ...tasks), what).toBeLessThanOrEqual(most);
    }
  } finally {
    await close();
    rmSync(dataFolder, { recursive: true, force: true });
  }
});
