import { mkdirSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { serialBench } from '../demo/bench-hands.ts';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';

test('a cable pulled during a run is shown, looked for and found again, with a gap in the trace', async () => {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-pull-'));
  let bench = await serialBench(folder, 3);
  const { page, close } = await launchApp();
  try {
    await mustAsk(page, 'connect', {
      role: 'supply',
      address: { by: 'serial', path: bench.supplyPath, baud: 115_200 },
    });
    await bench.putBoard('tern-healthy');
    await mustAsk(page, 'setVolts', { volts: 19, confirmed: true });
    await mustAsk(page, 'outputOn', {});
    await expect
      .poll(async () => (await mustAsk(page, 'benchState', {})).run?.kind)
      .toBe('powered');
    const runId = (await mustAsk(page, 'benchState', {})).run!.id;
    await page.waitForTimeout(2500);

    await bench.close();
    await expect(page.locator('main.sheet')).toHaveAttribute('data-state', 'lost');
    await expect(page.getByTestId('next-sentence')).not.toBeEmpty();
    await page.waitForTimeout(1500);

    rmSync(folder, { recursive: true, force: true });
    mkdirSync(folder);
    bench = await serialBench(folder, 3);
    await expect
      .poll(async () => (await mustAsk(page, 'benchState', {})).supply.link, { timeout: 20_000 })
      .toBe('live');
    await page.waitForTimeout(1500);
    // The pretend supply came back with its output off, as after a loss of mains: the run is over.
    const { run, report } = await mustAsk(page, 'readRun', { id: runId });
    expect(run.endedAt).not.toBeNull();
    expect(report.marks.map((mark) => mark.mark)).toContain('gap');
  } finally {
    await close();
    await bench.close();
    rmSync(folder, { recursive: true, force: true });
  }
});
