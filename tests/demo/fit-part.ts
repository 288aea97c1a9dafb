import type { Page } from '@playwright/test';
import { expect } from './expect.ts';
import type { Scenario } from './scenarios.ts';

const SHELF = 'B2';

/** Puts a donor board on a shelf, with what its model carries. */
export async function shelveDonor(page: Page, model: string, line: string): Promise<void> {
  await page.keyboard.press('F10');
  const donor = page.getByRole('form', { name: 'Donor board' });
  await donor.getByLabel('Board model').fill(model);
  await donor.getByLabel('Shelf').fill(SHELF);
  await donor.getByRole('button', { name: 'Keep', exact: true }).click();
  await donor.getByLabel(/^What every board of this model carries/).fill(line);
  await donor.getByLabel('The figures are known from').selectOption('schematic');
  await donor.getByRole('button', { name: 'Keep', exact: true }).click();
  await expect(page.getByRole('navigation', { name: 'Donor boards' })).toContainText('1 left');
}

/** Writes the lifted part down in a word, finds its equal on the shelf, and takes it into the job. */
export async function fitFromDonor(page: Page, { suspect }: Scenario): Promise<void> {
  await page.keyboard.press('F1');
  await page.keyboard.press('q');
  const quick = page.getByRole('form', { name: 'Part lifted or fitted' });
  await expect(quick.getByRole('textbox')).toBeFocused();
  await page.keyboard.type(`${suspect.designator} lifted, ${suspect.found}`);
  await page.keyboard.press('Enter');
  await expect(quick).toContainText(`Kept: ${suspect.designator} lifted`);
  await page.getByRole('button', { name: 'The rest of it' }).click();
  const parts = page.getByRole('region', { name: 'Parts' });
  await parts.getByRole('button', { name: `Find a donor for ${suspect.designator}` }).click();
  const found = parts.getByRole('status');
  await found
    .getByRole('button', { name: /^Take it into job/ })
    .first()
    .click();
  await expect(parts).toContainText(`shelf ${SHELF}`);
}

/** Writes a lifted and a fitted part down in full. */
export async function fitFromStock(page: Page, { suspect }: Scenario): Promise<void> {
  for (const action of ['Lifted', 'Fitted'] as const) {
    await page.getByRole('button', { name: 'Add a part' }).click();
    const form = page.getByRole('form', { name: 'Part', exact: true });
    await form.getByText(action, { exact: true }).click();
    await form.getByLabel('Designator').fill(suspect.designator);
    await form.getByLabel('Kind').fill(suspect.kind);
    await form.getByLabel('Value').fill(suspect.value);
    await form.getByLabel('Rail').fill(suspect.rail);
    if (action === 'Lifted') await form.getByLabel('State found').fill(suspect.found);
    else await form.getByLabel('Where the fitted part came from').fill('new stock');
    await form.getByRole('button', { name: 'Keep part' }).click();
    await expect(form).toHaveCount(0);
  }
}
