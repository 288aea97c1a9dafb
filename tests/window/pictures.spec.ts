import { mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import AxeBuilder from '@axe-core/playwright';
import { expect, type Page, test } from '@playwright/test';
import { pictureFileName, pictureFolderOf } from '../../electron/ledger/picture-folder.ts';
import { mustAsk } from '../support/ask-app.ts';
import { type LaunchedApp, launchApp } from '../support/launch-app.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { makeJpeg, makePng, makeWebp, withCameraNotes } from '../support/make-pictures.ts';

const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-pictures-'));
const dataFolder = path.join(folder, 'data');
const at = (name: string) => path.join(folder, name);
const thermal = withCameraNotes(makeJpeg({ width: 1200, height: 900 }), { orientation: 1 });
const upright = withCameraNotes(makeJpeg({ width: 400, height: 300, seed: 2 }), { orientation: 6 });

let launched: LaunchedApp;
let page: Page;
let jobId: string;
test.describe.configure({ mode: 'serial' });

async function start(): Promise<void> {
  launched = await launchApp({ dataFolder });
  page = launched.page;
  page.setDefaultTimeout(15_000);
  await launched.app.evaluate(({ BrowserWindow }) =>
    BrowserWindow.getAllWindows()[0]!.setContentSize(1440, 900),
  );
}

test.beforeAll(async () => {
  writeFileSync(at('hot.jpg'), thermal);
  writeFileSync(at('sideways.jpg'), upright);
  writeFileSync(at('words.jpg'), 'These are only words.');
  writeFileSync(at('cut.jpg'), thermal.subarray(0, 5000));
  await start();
  jobId = (await mustAsk(page, 'createJob', jobFields({ boardModel: 'Tern 14' }))).id;
  await openJob();
});
test.afterAll(async () => {
  await launched.close();
  rmSync(folder, { recursive: true, force: true });
});

async function openJob(): Promise<void> {
  await page.getByRole('button', { name: 'Job book', exact: true }).click();
  await page.getByRole('button', { name: /Tern 14/ }).click();
  await expect(pictures()).toHaveAttribute('aria-busy', 'false');
}
const pictures = () => page.getByRole('region', { name: 'Pictures', exact: true });
const lines = () => pictures().locator('.picture-line');
const dialog = () => page.getByRole('dialog');
const listed = () => mustAsk(page, 'listPictures', { jobId });

/** Whether the image really shows: it was fetched, decoded, and has its size. */
const isDrawn = (selector: string) =>
  page
    .locator(selector)
    .first()
    .evaluate(
      (image) =>
        (image as HTMLImageElement).complete && (image as HTMLImageElement).naturalWidth > 0,
    );

async function hasNoA11yTrouble(within: string): Promise<void> {
  const found = await new AxeBuilder({ page })
    .setLegacyMode()
    .include(within)
    .withTags(['wcag2a', 'wcag2aa', 'wcag21aa', 'wcag22aa'])
    .analyze();
  expect(found.violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html}`)).toEqual([]);
}

test('a picture is added from a file and shown at size, without where it was taken', async () => {
  await pictures().getByLabel('Picture files').setInputFiles(at('hot.jpg'));
  await expect(dialog()).toBeVisible();
  await expect.poll(() => isDrawn('.picture-dialog img')).toBe(true);
  const [kept] = await listed();
  expect(kept).toMatchObject({ kind: 'thermal', width: 1200, height: 900 });
  const file = path.join(
    pictureFolderOf(path.join(dataFolder, 'ledger.sqlite')),
    pictureFileName(kept!.hash, kept!.type),
  );
  expect(readFileSync(file).includes('Exif')).toBe(false);
});

test('a mark is placed with the mouse, named, given a temperature, and moved with keys', async () => {
  const box = (await page.getByRole('button', { name: /^Place a mark/ }).boundingBox())!;
  await page.mouse.click(box.x + box.width * 0.7, box.y + box.height * 0.4);
  await dialog().getByLabel('Mark 1, what is there').fill('C412');
  await dialog().getByLabel('Mark 1, degrees Celsius').fill('hot');
  await page.keyboard.press('Enter');
  await expect(dialog().getByRole('alert')).toContainText('no temperature of a board');
  await dialog().getByLabel('Mark 1, degrees Celsius').fill('189 F');
  await page.keyboard.press('Enter');
  await expect(dialog().getByLabel('Mark 1, degrees Celsius')).toHaveValue('87.2 °C');
  const mark = dialog().getByRole('button', { name: 'C412, hot spot, 87.2 °C' });
  await mark.focus();
  await page.keyboard.press('ArrowRight');
  await expect
    .poll(async () => (await listed())[0]?.marks[0])
    .toMatchObject({
      kind: 'hot-spot',
      name: 'C412',
      temperatureC: 87.2,
      x: expect.closeTo(0.72, 2),
      y: expect.closeTo(0.4, 2),
    });
});

test('a second mark is placed and the picture zoomed without the mouse', async () => {
  const place = page.getByRole('button', { name: /^Place a mark/ });
  await place.focus();
  const before = (await place.boundingBox())!.width;
  await page.keyboard.press('+');
  await expect.poll(async () => (await place.boundingBox())!.width).toBeGreaterThan(before * 1.4);
  await page.keyboard.press('0');
  await expect.poll(async () => (await place.boundingBox())!.width).toBeCloseTo(before, 0);
  await page.keyboard.press('Shift+ArrowLeft');
  await page.keyboard.press('Enter');
  await expect(dialog().getByLabel('Mark 2, what is there')).toBeFocused();
  await dialog().getByLabel('What it shows').fill('Ten seconds at 0.5 V');
  await dialog().getByLabel('Rail', { exact: true }).fill('MAIN_8V6');
  await hasNoA11yTrouble('.picture-dialog');
  await page.keyboard.press('Escape');
  await expect(dialog()).toHaveCount(0);
  const image = lines().first().getByRole('img');
  await expect(image).toHaveAttribute(
    'alt',
    'Thermal picture of MAIN_8V6: Ten seconds at 0.5 V. Marked: C412, hot spot, 87.2 °C; mark 2, hot spot.',
  );
  await expect.poll(() => isDrawn('.picture-line img')).toBe(true);
});

test('what is no picture is refused by its name, and the good ones beside it are taken', async () => {
  await pictures()
    .getByLabel('Picture files')
    .setInputFiles([at('words.jpg'), at('sideways.jpg'), at('cut.jpg')]);
  const alert = pictures().getByRole('alert');
  await expect(alert).toContainText('words.jpg: This is not a picture, whatever its name says');
  await expect(alert).toContainText('cut.jpg: The picture is cut short or damaged');
  expect(await listed()).toHaveLength(2);
  await pictures().getByRole('button', { name: 'Seen' }).click();
  await expect(alert).toHaveCount(0);
});

test('a picture that was taken sideways stands upright', async () => {
  const kept = (await listed()).find(({ width }) => width === 300)!;
  const shown = pictures().locator(`img[src*="${kept.id}"]`);
  await expect(shown).toBeVisible();
  await expect
    .poll(() =>
      shown.evaluate((image) => {
        const { naturalWidth, naturalHeight } = image as HTMLImageElement;
        return naturalWidth / naturalHeight;
      }),
    )
    .toBeCloseTo(0.75, 2);
});

/** Hands files to the page as the clipboard or a drag does. */
async function give(how: 'paste' | 'drop', bytes: Uint8Array, type: string): Promise<void> {
  await page.evaluate(
    ([event, base64, mime]) => {
      const raw = Uint8Array.from(atob(base64!), (letter) => letter.charCodeAt(0));
      const data = new DataTransfer();
      data.items.add(new File([raw], 'image.png', { type: mime! }));
      const how = { bubbles: true, cancelable: true };
      document.body.dispatchEvent(
        event === 'paste'
          ? new ClipboardEvent('paste', { ...how, clipboardData: data })
          : new DragEvent('drop', { ...how, dataTransfer: data }),
      );
    },
    [how, Buffer.from(bytes).toString('base64'), type] as const,
  );
}

test('pictures come by paste and by drop as well, as PNG and as WebP', async () => {
  await give('paste', makePng({ width: 320, height: 200, rgb: [20, 90, 160] }), 'image/png');
  await expect(dialog()).toBeVisible();
  await page.keyboard.press('Escape');
  await give('drop', makeWebp(), 'image/webp');
  await expect(dialog()).toBeVisible();
  await expect.poll(() => isDrawn('.picture-dialog img')).toBe(true);
  await page.keyboard.press('Escape');
  expect((await listed()).map(({ type }) => type).sort()).toEqual([
    'image/jpeg',
    'image/jpeg',
    'image/png',
    'image/webp',
  ]);
});

test('a whole picture whose coded data is rubbish cannot be opened, and is not kept', async () => {
  const bytes = makePng({ width: 16, height: 16 });
  const before = (await listed()).length;
  // A true checksum over data that is no compressed picture: only opening it can tell.
  const rubbish = makePng({ width: 16, height: 16, rubbish: true });
  expect(rubbish.length).not.toBe(bytes.length);
  await give('paste', rubbish, 'image/png');
  await expect(pictures().getByRole('alert')).toContainText('cannot be opened');
  expect(await listed()).toHaveLength(before);
  await pictures().getByRole('button', { name: 'Seen' }).click();
});

test('everything is there after the app was closed and opened again', async () => {
  const before = await listed();
  await launched.close();
  await start();
  await openJob();
  await expect(lines()).toHaveCount(before.length);
  expect(await listed()).toEqual(before);
  await expect.poll(() => isDrawn('.picture-line img')).toBe(true);
  await hasNoA11yTrouble('.picture-book');
});

test('a file that was changed outside is told in its place, and nothing else stops', async () => {
  const victim = (await listed()).find(({ type }) => type === 'image/webp')!;
  const root = pictureFolderOf(path.join(dataFolder, 'ledger.sqlite'));
  writeFileSync(path.join(root, pictureFileName(victim.hash, victim.type)), 'changed');
  await page.getByRole('button', { name: 'Power-up sheet', exact: true }).click();
  await openJob();
  await expect(pictures().locator('.picture-lost')).toContainText('was changed outside the app');
  await expect(lines()).toHaveCount((await listed()).length);
});

test('a binned picture is taken back from the bin, and goes for good when it is emptied', async () => {
  const count = (await listed()).length;
  await lines().last().click();
  await dialog().getByRole('button', { name: 'Put in bin' }).click();
  await dialog().getByRole('button', { name: 'Press again to bin it' }).click();
  await expect(lines()).toHaveCount(count - 1);
  const bin = page.getByRole('region', { name: 'Bin', exact: true });
  const openBin = () => page.getByRole('button', { name: 'Bin', exact: true }).click();
  await openBin();
  await bin.getByRole('button', { name: 'Take back' }).click();
  await expect(bin).toContainText('The bin is empty.');
  await openJob();
  await expect(lines()).toHaveCount(count);

  const [gone] = await listed();
  await mustAsk(page, 'binPicture', { id: gone!.id });
  const root = pictureFolderOf(path.join(dataFolder, 'ledger.sqlite'));
  const shard = path.join(root, gone!.hash.slice(0, 2));
  expect(readdirSync(shard)).toContain(path.basename(pictureFileName(gone!.hash, gone!.type)));
  await openBin();
  await bin.getByRole('button', { name: 'Empty the bin' }).click();
  await bin.getByRole('button', { name: 'Press again: 1 picture goes for good' }).click();
  await expect(bin).toContainText('The bin is empty.');
  expect(readdirSync(shard)).not.toContain(path.basename(pictureFileName(gone!.hash, gone!.type)));
});

test('no page may reach another file through the address of a picture', async () => {
  const kept = (await listed())[0]!;
  const loads = (address: string) =>
    page.evaluate(
      (src) =>
        new Promise<boolean>((resolve) => {
          const image = new Image();
          image.onload = () => resolve(true);
          image.onerror = () => resolve(false);
          image.src = src;
        }),
      address,
    );
  expect(await loads(`/pictures/${kept.id}/full`)).toBe(true);
  for (const address of [
    '/pictures/../../ledger.sqlite',
    `/pictures/${kept.id}/../../../ledger.sqlite`,
    '/pictures/%2e%2e%2fledger.sqlite/full',
    `file://${dataFolder}/ledger.sqlite`,
    'https://example.invalid/picture.png',
  ]) {
    expect(await loads(address), address).toBe(false);
  }
});

test('the ohm sign is drawn by a face of our own, in every weight', async () => {
  const widths = await page.evaluate(async () => {
    const weights = [400, 500, 600];
    await Promise.all(
      weights.map((weight) => document.fonts.load(`${weight} 40px "Barlow Ohm"`, 'Ω')),
    );
    const faces = [...document.fonts].filter(({ family }) => family.includes('Barlow Ohm'));
    const pen = document.createElement('canvas').getContext('2d')!;
    const wide = (face: string, text: string) => {
      pen.font = face;
      return pen.measureText(text).width;
    };
    const shown = getComputedStyle(document.body).fontFamily;
    return {
      loaded: faces.map(({ status }) => status),
      own: weights.map((weight) => wide(`${weight} 100px "Barlow Ohm"`, 'Ω')),
      window: weights.map((weight) => wide(`${weight} 100px ${shown}`, 'Ω')),
      digits: wide(`400 100px ${shown}`, '0'),
      barlow: wide('400 100px Barlow', '0'),
    };
  });
  expect(widths.loaded).toEqual(['loaded', 'loaded', 'loaded']);
  expect(widths.window).toEqual(widths.own);
  expect(widths.digits).toBe(widths.barlow);
});
