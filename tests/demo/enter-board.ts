import type { Page } from '@playwright/test';
import { TERN_RAILS } from '../support/tern-rails.ts';
import { expect } from './expect.ts';

/** Places along the main rail that the invented layout names: a hunt along it needs them. */
export const MAIN_PLACES = ['C110', 'C112', 'C120'] as const;

const ROWS = TERN_RAILS.replace('\t\tMAIN_8V6\t', `\t\tMAIN_8V6; ${MAIN_PLACES.join('; ')}\t`);
const CORE_ROW = [
  'CORE_0V9',
  '0.9',
  '5%',
  'MAIN_8V6',
  'converter',
  '',
  'CORE_0V9',
  '4.2',
  '',
  'yes',
];

/** Pastes a spreadsheet's rows into the table of a new board, and saves it. */
export async function enterBoard(page: Page, name: string, inputV: number): Promise<void> {
  await page.keyboard.press('F6');
  const form = page.getByRole('form', { name: 'Board' });
  await form.getByLabel('Board', { exact: true }).fill(name);
  const first = form.getByLabel('Row 1, rail', { exact: true });
  await first.focus();
  await first.evaluate(
    (field, pasted) => {
      const clipboardData = new DataTransfer();
      clipboardData.setData('text/plain', pasted);
      field.dispatchEvent(
        new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }),
      );
    },
    `${ROWS}\n${CORE_ROW.slice(0, 8).join('\t')}`,
  );
  await expect(form.getByLabel('Row 5, rail', { exact: true })).toHaveValue('SYS_3V3');
  await form.getByLabel('Stated input, V').fill(String(inputV));
  await form.getByRole('button', { name: 'Save board' }).click();
  await expect(form.getByText('Saved.', { exact: true })).toBeVisible();
}
