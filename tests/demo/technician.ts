import type { Locator, Page } from '@playwright/test';
import type { BenchHands } from './bench-hands.ts';
import { expect } from './expect.ts';
import type { Scenario } from './scenarios.ts';

/** Where the probe goes for a checklist step's place; anything else stays on the main rail. */
const POINTS: Readonly<Record<string, string>> = {
  Input: 'F1 connector side',
  'Board input': 'F1 board side',
  'Main rail': 'MAIN_8V6',
  'Main rail, leads swapped': 'MAIN_8V6',
  DC_FUSED: 'F1 board side',
  'Always-on rail': 'ALW_3V3',
  ALW_3V3: 'ALW_3V3',
  SYS_5V: 'SYS_5V',
  SYS_3V3: 'SYS_3V3',
  CORE_0V9: 'CORE_0V9',
  'Processor core': 'CORE_0V9',
};
/** Steps that a powered run does, not a key. */
const RUN_STEPS = /^(First powered run|Second run|Wakes from cold)/;
/** The meter answers five times a second: long enough for a fresh reading at a new point. */
const SETTLE_MS = 900;
/** Long enough to see a soak pass; a shop's rule is half an hour and more. */
const SOAK_MIN = '0.1';

/** Drives the real window as a technician with gloves would: by keys and names on screen. */
export function technician(page: Page, hands: BenchHands, say: (line: string) => void) {
  const next = (): Locator => page.locator('article.next-item');
  const titleOf = async () =>
    (await next().getAttribute('aria-label'))?.replace(/^Next: /, '') ?? '';

  async function takeIn(job: Scenario): Promise<void> {
    await page.keyboard.press('F2');
    await page.keyboard.press('j');
    await page.getByLabel('Board model').fill(job.model);
    await page.getByLabel('Serial number').fill(job.serial);
    await page.getByLabel('Symptom').fill(job.symptom);
    await page
      .locator('label', { hasText: new RegExp(`^${job.liquid}$`) })
      .first()
      .click();
    await page.getByLabel('Customer').fill(job.customer);
    await page.getByLabel('Stated input, V').fill(String(job.inputV));
    await page.getByLabel('First limit, A').fill(String(job.limitA));
    await page.getByLabel('Running draw, A').fill(String(job.runningA));
    await page.getByRole('button', { name: 'Take in and put on bench' }).click();
    await expect(next()).toBeVisible();
    say(`took in: ${job.symptom}`);
  }

  /** Does one step of the checklist; false when it waits for a run or a part. */
  async function step(): Promise<boolean> {
    const item = next();
    const title = await titleOf();
    const isReading = await item.getByRole('button', { name: /^Type it/ }).count();
    const note = item.getByRole('textbox', { name: /^Note:/ });
    const soak = item.getByRole('form', { name: 'Soak' });
    if (isReading > 0) {
      const inFunction = item.getByRole('button', { name: /^Put it in/ });
      if ((await inFunction.count()) > 0) await inFunction.click();
      await expect(item.getByRole('button', { name: /^Take reading/ })).toBeVisible();
      const asked = (await item.locator('.meter-where').textContent()) ?? '';
      const place = asked.replace(/^.* at /, '');
      const where = POINTS[place] ?? /\(([^)]+)\)$/.exec(place)?.[1] ?? 'MAIN_8V6';
      await hands.probe(where);
      await page.waitForTimeout(SETTLE_MS);
      const shown = await item.getByTestId('meter-reading').textContent();
      await page.keyboard.press('r');
      say(`measured ${title}: ${shown?.replaceAll(/\s+/g, ' ')} (probe on ${where})`);
    } else if ((await soak.count()) > 0) {
      await soak.getByLabel('Minutes').fill(SOAK_MIN);
      await soak.getByRole('button', { name: 'Begin soak' }).click();
      await expect.poll(titleOf, { message: 'the soak ends', timeout: 60_000 }).not.toBe(title);
      say(`soaked: ${SOAK_MIN} min, for show`);
      return true;
    } else if ((await note.count()) > 0) {
      await note.fill('Looked, nothing unusual');
      await note.press('Enter');
      say(`noted: ${title}`);
    } else if (RUN_STEPS.test(title) || (await item.getByText('Parts of this job').count()) > 0) {
      return false;
    } else {
      await page.keyboard.press('d');
      say(`done: ${title}`);
    }
    await expect.poll(titleOf, { message: `after "${title}"` }).not.toBe(title);
    return true;
  }

  /** Works down the list until a step whose title matches is next. */
  async function workUntil(stop: RegExp): Promise<void> {
    await page.keyboard.press('F1');
    for (let guard = 0; guard < 80; guard += 1) {
      if ((await next().count()) === 0 || stop.test(await titleOf())) return;
      if (!(await step())) return;
    }
    throw new Error('the checklist did not come to an end');
  }

  async function setField(key: 'v' | 'l', value: number): Promise<void> {
    await page.keyboard.press(key);
    await page.keyboard.type(String(value));
    await page.keyboard.press('Enter');
    await page.waitForTimeout(300);
  }

  const stageWord = async (): Promise<string> =>
    (await page.getByTestId('stage-reason').locator('strong').last().textContent())?.replace(
      'Earlier: ',
      '',
    ) ?? '';

  let isPowered = false;
  const isOn = () => isPowered;

  async function powerOn(job: Scenario): Promise<void> {
    await page.keyboard.press('F1');
    await setField('v', job.inputV);
    await setField('l', job.limitA);
    await page.keyboard.press('o');
    await page.waitForTimeout(500);
    await page.keyboard.press('Enter');
    await expect(page.getByRole('button', { name: /^Output is on/ })).toBeVisible();
    isPowered = true;
    say(`output on: ${job.inputV} V, limit ${job.limitA} A`);
    await page.waitForTimeout(1200);
    await hands.pressWake();
    await page.keyboard.press('w');
    say('asked it to wake');
  }

  async function powerOff(): Promise<void> {
    await page.keyboard.press('F9');
    isPowered = false;
    await page.keyboard.press('F1');
    await expect(page.getByRole('button', { name: /^Output on/ })).toBeVisible();
    say('output off');
    await page.waitForTimeout(1200);
  }

  /** The stage strip's words as a sentence: the stage, its reason, how sure. */
  const stageWords = async (): Promise<string> =>
    (await page.getByTestId('stage-reason').locator('strong, span').allTextContents()).join('; ');

  return { stageWords, takeIn, step, workUntil, powerOn, powerOff, isOn, stageWord, titleOf, next };
}
