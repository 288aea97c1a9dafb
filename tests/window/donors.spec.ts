import { expect, type Page, test } from '@playwright/test';
import { askApp, mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { hasNoA11yTrouble } from '../support/no-a11y-trouble.ts';

let launched: LaunchedApp;
let page: Page;
let jobId: string;
test.describe.configure({ mode: 'serial' });

test.beforeAll(async () => {
  launched = await launchApp();
  page = launched.page;
  page.setDefaultTimeout(10_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
  );
  jobId = (await mustAsk(page, 'createJob', jobFields({ boardModel: 'Tern 14' }))).id;
  await mustAsk(page, 'openJobOnBench', { jobId });
});
test.afterAll(() => launched.close());

const parts = () => page.getByRole('region', { name: 'Parts' });
const donor = () => page.getByRole('form', { name: 'Donor board' });
const partsOf = async () => (await mustAsk(page, 'readJob', { id: jobId })).parts;
const outcome = { verdict: 'not-repaired', cause: '', provedBy: '', misledBy: '' } as const;

test('a board is put on a shelf with what its model carries', async () => {
  await page.keyboard.press('F10');
  await expect(page.getByText('No donor board yet.')).toBeVisible();
  await donor().getByLabel('Board model').fill('Tern 14');
  await donor().getByLabel('Shelf').fill('B2');
  await donor().getByRole('button', { name: 'Keep', exact: true }).click();
  const list = donor().getByLabel(/^What every board of this model carries/);
  await list.fill('C1207 22uF 25V X5R 0805 on MAIN\nR7 4k7 1% 0805');
  await donor().getByLabel('The figures are known from').selectOption('schematic');
  await donor().getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('navigation', { name: 'Donor boards' })).toContainText(
    'shelf B2, 2 left, 0 taken',
  );
  await hasNoA11yTrouble(page, '.donors');
});

test('a part is written in a word while the iron is hot, and what its place tells is filled in', async () => {
  await page.keyboard.press('F1');
  await expect(page.getByRole('region', { name: 'Checklist' })).toBeVisible();
  await page.keyboard.press('q');
  const quick = page.getByRole('form', { name: 'Part lifted or fitted' });
  await expect(quick.getByRole('textbox')).toBeFocused();
  await page.keyboard.type('C1207 off for a test, shorted');
  await expect(quick).toContainText('C1207 lifted for a test shorted');
  await page.keyboard.press('Enter');
  await expect(quick).toContainText('Kept: C1207 lifted');
  expect(await partsOf()).toMatchObject([
    {
      action: 'lifted',
      designator: 'C1207',
      value: '22uF 25V X5R 0805',
      rail: 'MAIN',
      stateFound: 'shorted',
    },
  ]);
});

test('the job cannot close while it runs without a part and nobody decided', async () => {
  expect(await askApp(page, 'closeJob', { id: jobId, outcome })).toMatchObject({
    ok: false,
    trouble: { code: 'gate-closed', what: expect.stringContaining('C1207 is left off for a test') },
  });
  await page.getByRole('button', { name: 'The rest of it' }).click();
  await expect(parts()).toContainText(
    'Off for a test: the job cannot close until this is decided.',
  );
  await hasNoA11yTrouble(page, '.job-parts');
});

test('a donor is found from the part’s own line, judged by rules, and taken into the job', async () => {
  await parts().getByRole('button', { name: 'Find a donor for C1207' }).click();
  const found = parts().getByRole('status');
  await expect(found).toContainText('C1207 22uF 25V X5R 0805 of Tern 14, shelf B2');
  await found.getByText('An equal').first().click();
  await expect(found).toContainText('Passes value');
  await expect(found).toContainText('Not checked:');
  await found.getByRole('button', { name: 'Take it into job 1' }).click();
  await expect(parts()).toContainText('from donor Tern 14 C1207, shelf B2');
  await expect(parts().getByText('cannot close')).toHaveCount(0);
  const { items } = await mustAsk(page, 'readJob', { id: jobId });
  expect(items.filter(({ step }) => step === 'same-points-again')).toHaveLength(1);
  const facts = await mustAsk(page, 'readPartFacts', { jobId });
  expect(facts.map(({ place }) => place)).toEqual(['fitted', null]);
  expect(facts[1]?.equivalence?.verdict).toBe('equal');
});

test('a taken part goes back to its board with a reason, and its place asks anew', async () => {
  await page.keyboard.press('F10');
  await page.getByRole('button', { name: /^Tern 14/ }).click();
  const taken = page.getByRole('region', { name: 'Taken from it' });
  await expect(taken).toContainText('into job 1');
  await taken.getByRole('button', { name: 'Put it back C1207' }).click();
  await taken.getByLabel('Why it goes back').fill('did not help');
  await page.keyboard.press('Enter');
  await expect(taken).toContainText('out of job 1: did not help');
  await expect(page.getByRole('navigation', { name: 'Donor boards' })).toContainText('2 left');
  expect((await partsOf()).map(({ action }) => action)).toEqual(['lifted', 'fitted', 'lifted']);
});

test('a part stays off only with a reason and who agreed; then the job closes', async () => {
  await page.keyboard.press('F2');
  await expect(parts()).toContainText('Nothing fitted there yet');
  await parts().getByRole('button', { name: 'It stays off C1207' }).click();
  const form = page.getByRole('form', { name: 'C1207 stays off' });
  await form.getByLabel('Why the board does without it').fill('one of six in a bulk bank');
  await form.getByRole('button', { name: 'Keep: it stays off' }).click();
  await expect(page.getByRole('alert').filter({ hasText: 'customer’s agreement' })).toBeVisible();
  await form.getByLabel('Who agreed, and how').fill('customer, by phone');
  await form.getByRole('button', { name: 'Keep: it stays off' }).click();
  await expect(parts()).toContainText('Stays off, as agreed. one of six in a bulk bank');
  expect(await askApp(page, 'closeJob', { id: jobId, outcome })).toMatchObject({ ok: true });
});
