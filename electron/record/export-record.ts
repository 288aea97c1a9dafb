import type { BrowserWindow, BrowserWindowConstructorOptions } from 'electron';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import { RECORD_DRAWN, RECORD_TAKE } from '../../core/record/record-bridge.ts';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import { countPages } from './count-pages.ts';
import { footerTemplate } from './footer-template.ts';
import { writeWholeFile } from './write-whole-file.ts';

/** What this needs of a window. */
export type RecordWindow = Pick<
  BrowserWindow,
  'loadURL' | 'destroy' | 'isDestroyed' | 'webContents'
>;

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

const DRAW_WITHIN_MS = 60_000;

/**
 * Prints a record to a PDF file in a hidden, sandboxed window of its own and answers where it
 * is and how many pages it has. The record crosses as data, never as markup. The file is written
 * whole or not at all. Throws `file-not-written` with what to do.
 */
export async function exportRecord(o: ExportRecord): Promise<{ path: string; pages: number }> {
  const pdf = await printRecord(o);
  await writeWholeFile(o.path, pdf);
  return { path: o.path, pages: await countPages(pdf) };
}

async function printRecord(o: ExportRecord): Promise<Uint8Array> {
  const window = o.createWindow({
    show: false,
    paintWhenInitiallyHidden: true,
    webPreferences: {
      preload: o.preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webviewTag: false,
      spellcheck: false,
      backgroundThrottling: false,
    },
  });
  try {
    await drawRecord(window, o);
    return await window.webContents.printToPDF({
      pageSize: o.paper,
      preferCSSPageSize: true,
      printBackground: true,
      displayHeaderFooter: true,
      headerTemplate: '<span></span>',
      footerTemplate: footerTemplate(o.record.footer),
      generateTaggedPDF: true,
      generateDocumentOutline: true,
    });
  } catch (thrown) {
    throw thrown instanceof WakelineError ? thrown : notDrawn(troubleOf(thrown, o.pageUrl).what, o);
  } finally {
    if (!window.isDestroyed()) window.destroy();
  }
}

/** Loads the page, hands it the record and waits until it says that it is drawn. */
async function drawRecord(window: RecordWindow, o: ExportRecord): Promise<void> {
  const { webContents } = window;
  webContents.setWindowOpenHandler(() => ({ action: 'deny' }));
  webContents.on('will-navigate', (event) => event.preventDefault());
  webContents.ipc.handleOnce(RECORD_TAKE, () => ({ ...o.record, paper: o.paper }));
  let timer: NodeJS.Timeout | undefined;
  const drawn = new Promise<void>((resolve, reject) => {
    const fail = (why: string) => reject(notDrawn(why, o));
    webContents.ipc.once(RECORD_DRAWN, (_event, problem: unknown) =>
      problem === null ? resolve() : fail(String(problem)),
    );
    webContents.once('render-process-gone', (_event, details) =>
      fail(`the print page stopped (${details.reason})`),
    );
    webContents.once('preload-error', (_event, _path, error) => fail(error.message));
    const withinMs = o.timeoutMs ?? DRAW_WITHIN_MS;
    timer = setTimeout(
      () => fail(`the print page did not draw within ${withinMs / 1000} s`),
      withinMs,
    );
  });
  try {
    await Promise.all([window.loadURL(o.pageUrl), drawn]);
  } finally {
    clearTimeout(timer);
  }
}

function notDrawn(why: string, o: ExportRecord): WakelineError {
  return new WakelineError({
    code: 'file-not-written',
    what: `The record of ${o.record.title} could not be printed: ${why}`,
    where: o.path,
    todo: 'Nothing was written and the job is unchanged. Export it again; if it comes back, restart the app.',
  });
}
