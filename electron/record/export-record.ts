import type { BrowserWindowConstructorOptions } from 'electron';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import { countPages } from './count-pages.ts';
import { footerTemplate } from './footer-template.ts';
import { type PrintWindow, printPage } from './print-page.ts';
import { writeWholeFile } from './write-whole-file.ts';

/** What this needs of a window. */
export type RecordWindow = PrintWindow;

export interface ExportRecord {
  readonly record: JobRecord;
  /** The built print page (`renderer/record/index.html`). */
  readonly pageUrl: string;
  /** The built `electron/record/record-preload.ts`. */
  readonly preload: string;
  readonly paper: Paper;
  /** Where the PDF goes. */
  readonly path: string;
  readonly createWindow: (options: BrowserWindowConstructorOptions) => RecordWindow;
  /** How long the page may take to draw. */
  readonly timeoutMs?: number;
}

/**
 * Prints a record to a PDF file in a hidden, sandboxed window of its own and answers where it
 * is and how many pages it has. The record crosses as data, never as markup. The file is written
 * whole or not at all. Throws `file-not-written` with what to do.
 */
export async function exportRecord(o: ExportRecord): Promise<{ path: string; pages: number }> {
  const pdf = await printPage({
    content: { ...o.record, paper: o.paper },
    called: `The record of ${o.record.title}`,
    pageUrl: o.pageUrl,
    preload: o.preload,
    path: o.path,
    createWindow: o.createWindow,
    timeoutMs: o.timeoutMs,
    options: {
      pageSize: o.paper,
      preferCSSPageSize: true,
      printBackground: true,
      displayHeaderFooter: true,
      headerTemplate: '<span></span>',
      footerTemplate: footerTemplate(o.record.footer),
      generateTaggedPDF: true,
      generateDocumentOutline: true,
    },
  });
  await writeWholeFile(o.path, pdf);
  return { path: o.path, pages: await countPages(pdf) };
}
