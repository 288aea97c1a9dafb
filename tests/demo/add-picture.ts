import { writeFileSync } from 'node:fs';
import type { Page } from '@playwright/test';
import { makeJpeg } from '../support/make-pictures.ts';
import { expect } from './expect.ts';

/** Adds an invented thermal picture to the open job, and marks its warm spot with a temperature. */
export async function addHotSpot(page: Page, file: string, part: string): Promise<void> {
  writeFileSync(file, makeJpeg({ width: 960, height: 640 }));
  const pictures = page.getByRole('region', { name: 'Pictures', exact: true });
  await pictures.getByLabel('Picture files').setInputFiles(file);
  const dialog = page.getByRole('dialog');
  const place = page.getByRole('button', { name: /^Place a mark/ });
  await expect(place).toBeVisible();
  const box = (await place.boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.7, box.y + box.height * 0.4);
  await dialog.getByLabel('Mark 1, what is there').fill(part);
  await dialog.getByLabel('Mark 1, degrees Celsius').fill('87');
  await page.keyboard.press('Enter');
  await dialog.getByLabel('What it shows').fill('Current in, a few seconds');
  await page.keyboard.press('Escape');
  await expect(dialog).toHaveCount(0);
}
