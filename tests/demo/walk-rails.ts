import type { Page } from '@playwright/test';
import { mustAsk } from '../support/ask-app.ts';
import type { BenchHands } from './bench-hands.ts';
import { expect } from './expect.ts';

/** Where a rail of the pasted table is touched on the pretend board, when not by its own name. */
const NET: Readonly<Record<string, string>> = { DC_FUSED: 'F1 board side' };
const SETTLE_MS = 900;
const MOST = 6;

interface Power {
  on(): Promise<void>;
  off(): Promise<void>;
  isOn(): boolean;
}

/**
 * Measures what the advice proposes, along the rails, until it names what is most likely; says what it
 * came to. Enables and inputs are told to be out of reach: the pretend board has no such points.
 */
export async function walkRails(
  page: Page,
  hands: BenchHands,
  power: Power,
  say: (line: string) => void,
): Promise<string> {
  await page.keyboard.press('F5');
  const measure = page.getByRole('region', { name: 'Measure', exact: true });
  const summary = page.getByRole('region', { name: 'Suspects' }).getByRole('status');
  await expect(summary).toBeVisible();
  const { jobId } = await mustAsk(page, 'benchState', {});
  const kept = async () => (await mustAsk(page, 'readJob', { id: jobId! })).readings.length;
  const asked = async () =>
    [
      await measure.getByLabel('What').inputValue(),
      await measure.getByLabel('Rail', { exact: true }).inputValue(),
    ] as const;
  for (let taken = 0; taken < MOST; ) {
    const said = (await summary.textContent()) ?? '';
    if (/^Most likely/.test(said)) break;
    const [what, rail] = await asked();
    if (what === 'input' || what === 'enable') {
      await page.keyboard.press('c');
      await expect(page.getByRole('region', { name: 'Cannot be reached' })).toContainText(rail);
      say(`cannot reach the ${what} of ${rail}`);
      continue;
    }
    if (power.isOn() !== (what === 'volts')) {
      await (what === 'volts' ? power.on() : power.off());
      await page.keyboard.press('F5');
      continue;
    }
    await hands.probe(NET[rail] ?? rail);
    await page.waitForTimeout(SETTLE_MS);
    // The reading before may have moved the advice on only now.
    if ((await asked()).join() !== [what, rail].join()) continue;
    const other = measure.getByRole('button', { name: /^Put the meter in/ });
    if ((await other.count()) > 0) {
      await page.keyboard.press('r');
      await expect(other).toHaveCount(0);
      await page.waitForTimeout(SETTLE_MS);
    }
    const before = await kept();
    await page.keyboard.press('r');
    await expect.poll(kept).toBeGreaterThan(before);
    taken += 1;
    say(`the advice asked for ${what} of ${rail}`);
  }
  return (await summary.textContent()) ?? '';
}
