import { copyFileSync, mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { parseArgs } from 'node:util';
import type { Page } from '@playwright/test';
import { openDisplay } from '../../electron/runtime/display.ts';
import { mustAsk } from '../support/ask-app.ts';
import { launchApp } from '../support/launch-app.ts';
import { addHotSpot } from './add-picture.ts';
import { handsInWindow, serialBench } from './bench-hands.ts';
import { enterBoard } from './enter-board.ts';
import { expect } from './expect.ts';
import { fitFromDonor, fitFromStock, shelveDonor } from './fit-part.ts';
import { huntShort, leaveHunt } from './hunt-short.ts';
import { SCENARIOS } from './scenarios.ts';
import { technician } from './technician.ts';
import { walkRails } from './walk-rails.ts';

const { values } = parseArgs({
  options: {
    out: { type: 'string' },
    seed: { type: 'string', default: '1' },
    serial: { type: 'boolean', default: false },
  },
});
if (!values.out || !/^\d+$/.test(values.seed)) {
  console.error('usage: npm run demo -- --out DIR [--seed N] [--serial]');
  process.exit(2);
}
const out = path.resolve(values.out);
const seed = Number(values.seed);
const job = SCENARIOS[(seed - 1 + SCENARIOS.length) % SCENARIOS.length]!;
const dataFolder = path.join(out, 'data');
rmSync(dataFolder, { recursive: true, force: true });
mkdirSync(dataFolder, { recursive: true });

let pictures = 0;
const startMs = performance.now();
const say = (line: string) =>
  console.log(`${((performance.now() - startMs) / 1000).toFixed(1).padStart(6)} s  ${line}`);
async function picture(page: Page, name: string): Promise<void> {
  pictures += 1;
  const file = `${String(pictures).padStart(2, '0')}-${name}.png`;
  await page.screenshot({ path: path.join(out, file) });
  say(`picture: ${file}`);
}

async function connectSerial(page: Page, role: string, port: string): Promise<void> {
  await page.keyboard.press('F4');
  const form = page.getByRole('form', { name: `Connect the ${role}` });
  await form.getByText('Serial port', { exact: true }).click();
  await form.getByRole('combobox', { name: 'Port' }).fill(port);
  await form.locator('select').selectOption('115200');
  await form.locator('button[type=submit]').click();
  await expect(form.getByRole('button', { name: `Disconnect the ${role}` })).toBeVisible();
  say(`connected the ${role} on ${port}`);
}

const display = await openDisplay(say);
Object.assign(process.env, display.env);
const bench = values.serial ? await serialBench(dataFolder, seed) : null;
const launched = await launchApp({ dataFolder });
const { app, page } = launched;
page.setDefaultTimeout(15_000);
await app.evaluate(({ BrowserWindow }) =>
  BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
);
const hands = bench ?? handsInWindow(page);
const pdf = path.join(out, 'record.pdf');
try {
  const bencher = technician(page, hands, say);
  await picture(page, 'empty');
  if (bench !== null) {
    await connectSerial(page, 'supply', bench.supplyPath);
    await connectSerial(page, 'meter', bench.meterPath);
    await page.waitForTimeout(1500);
  }
  await picture(page, 'instruments');
  await hands.putBoard(job.board);
  say(`board on the bench: ${job.model}`);
  await enterBoard(page, job.model, job.inputV);
  say('entered its rails, pasted from a spreadsheet');
  await picture(page, 'board');
  if (job.donorLine !== null) await shelveDonor(page, job.model, job.donorLine);
  await bencher.takeIn(job);
  await picture(page, 'waiting');

  await bencher.workUntil(/First powered run/);
  await bencher.powerOn(job);
  await page.waitForTimeout(job.watchMs);
  const faultStage = await bencher.stageWord();
  say(`the draw: ${await bencher.stageWords()}`);
  expect(job.faultStages, 'what the faulty board was seen doing').toContain(faultStage);
  await picture(page, 'faulty-run');
  await bencher.workUntil(/Designator and rail noted/);
  const power = {
    on: () => bencher.powerOn(job),
    off: () => bencher.powerOff(),
    isOn: bencher.isOn,
  };
  say(`the rails: ${await walkRails(page, hands, power, say)}`);
  await picture(page, 'rails-walked');
  if (bencher.isOn()) await bencher.powerOff();
  const jobId = (await mustAsk(page, 'benchState', {})).jobId!;
  if (job.huntsAlong !== null) {
    say(`the hunt: ${await huntShort(page, hands, jobId, job.huntsAlong, say)}`);
    await picture(page, 'short-hunted');
    await leaveHunt(page, hands);
  }

  await page.keyboard.press('F1');
  await page.getByRole('button', { name: 'Parts of this job' }).click();
  if (job.huntsAlong !== null) {
    await addHotSpot(page, path.join(dataFolder, 'thermal.jpg'), job.suspect.designator);
    say('a thermal picture, its hot spot marked');
  }
  if (job.donorLine === null) await fitFromStock(page, job);
  else await fitFromDonor(page, job);
  say(`lifted and fitted: ${job.suspect.designator}`);
  await hands.replacePart(job.suspect.designator);
  await picture(page, 'job');

  await bencher.workUntil(/Second run/);
  await bencher.powerOn(job);
  await expect
    .poll(() => bencher.stageWord(), { message: 'the mended board runs', timeout: 40_000 })
    .toBe('Running');
  await page.waitForTimeout(6000);
  say(`the draw: ${await bencher.stageWords()}`);
  await bencher.workUntil(/Wakes from cold|Rails in tolerance/);
  await picture(page, 'healthy-run');
  await page.emulateMedia({ colorScheme: 'dark' });
  await picture(page, 'healthy-run-dark');
  await page.emulateMedia({ colorScheme: 'light' });
  await bencher.powerOff();
  await picture(page, 'finished');

  await page.keyboard.press('F2');
  await page.getByText(job.serial).first().click();
  const outcome = page.getByRole('form', { name: 'Outcome' });
  await outcome.getByText('Wakes', { exact: true }).click();
  await outcome.getByLabel('Cause', { exact: true }).selectOption(job.causeKey);
  await outcome.getByLabel('Cause found').fill(job.cause);
  await outcome.getByLabel('Proved by').fill(job.provedBy);
  await outcome.getByLabel('What misled').fill(job.misledBy);
  await outcome.getByLabel('Which part').fill(job.suspect.designator);
  await outcome.getByLabel('On which rail').fill(job.suspect.rail);
  await outcome.getByLabel('What gave it away').fill(job.gaveAway);
  for (const step of [/^The part was removed/, /^The reading came back/, /^The board woke/]) {
    await outcome.getByLabel(step).check();
  }
  await expect(outcome).toContainText('Proved');
  await outcome.getByRole('button', { name: 'Close the job' }).click();
  await expect(page.getByRole('heading', { name: /^Outcome: Wakes/ })).toBeVisible();
  say(`closed: ${job.cause}`);
  await picture(page, 'job-closed');

  await app.evaluate(({ dialog }, filePath) => {
    dialog.showSaveDialog = async () => ({ canceled: false, filePath });
  }, pdf);
  await page.getByRole('button', { name: 'Export record' }).click();
  await expect(page.getByText(/^Written:/)).toBeVisible({ timeout: 60_000 });
  say(`record: ${pdf}`);

  await page.keyboard.press('F3');
  await page.waitForTimeout(800);
  await picture(page, 'replay');
} catch (thrown) {
  await picture(page, 'where-it-stopped').catch(() => {});
  console.error(thrown);
  process.exitCode = 1;
} finally {
  await launched.close().catch(() => {});
  await bench?.close();
  display.close();
}
copyFileSync(path.join(dataFolder, 'ledger.sqlite'), path.join(out, 'ledger.sqlite'));
say(`ledger: ${path.join(out, 'ledger.sqlite')}`);
process.exit(process.exitCode ?? 0);
