import type { BrowserWindowConstructorOptions } from 'electron';
import type { BagTag } from '../../core/tags/bag-tag.ts';
import { countPages } from './count-pages.ts';
import { type PrintWindow, printPage } from './print-page.ts';
import { writeWholeFile } from './write-whole-file.ts';

/** Prints a bag tag to a PDF of the tag's own size; written whole or not at all. Throws `file-not-written`. */
export async function exportTag(o: {
  readonly tag: BagTag;
  /** The built print page (`renderer/tag/index.html`). */
  readonly pageUrl: string;
  readonly preload: string;
  readonly path: string;
  readonly createWindow: (options: BrowserWindowConstructorOptions) => PrintWindow;
}): Promise<{ path: string; pages: number }> {
  const pdf = await printPage({
    content: o.tag,
    called: `The bag tag of ${o.tag.title}`,
    pageUrl: o.pageUrl,
    preload: o.preload,
    path: o.path,
    createWindow: o.createWindow,
    options: { preferCSSPageSize: true, printBackground: true, generateTaggedPDF: true },
  });
  await writeWholeFile(o.path, pdf);
  return { path: o.path, pages: await countPages(pdf) };
}
