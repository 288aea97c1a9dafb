import type { BrowserWindow, BrowserWindowConstructorOptions, PrintToPDFOptions } from 'electron';
import { troubleOf, WakelineError } from '../../core/errors.ts';
import { RECORD_DRAWN, RECORD_TAKE } from '../../core/record/record-bridge.ts';

/** What this needs of a window. */
export type PrintWindow = Pick<
  BrowserWindow,
  'loadURL' | 'destroy' | 'isDestroyed' | 'webContents'
>;

export interface PrintPage {
  /** What the page draws; crosses as data, never as markup. */
  readonly content: unknown;
  /** What it is called when it cannot be printed: "the record of Job 4". */
  readonly called: string;
  /** The built print page. */
  readonly pageUrl: string;
  /** The built `electron/windows/record-preload.ts`. */
  readonly preload: string;
  /** Where the PDF will go, for messages. */
  readonly path: string;
  readonly options: PrintToPDFOptions;
  readonly createWindow: (options: BrowserWindowConstructorOptions) => PrintWindow;
  /** How long the page may take to draw. */
  readonly timeoutMs?: number | undefined;
}

const DRAW_WITHIN_MS = 60_000;

/** Prints a page of ours to a PDF in a hidden, sandboxed window of its own. Throws `file-not-written`. */
export async function printPage(o: PrintPage): Promise<Uint8Array> {
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
    await drawPage(window, o);
    return await window.webContents.printToPDF(o.options);
  } catch (thrown) {
    throw thrown instanceof WakelineError ? thrown : notDrawn(troubleOf(thrown, o.pageUrl).what, o);
  } finally {
    if (!window.isDestroyed()) window.destroy();
  }
}

/** Loads the page, hands it the content and waits until it says that it is drawn. */
async function drawPage(window: PrintWindow, o: PrintPage): Promise<void> {
  const { webContents } = window;
  webContents.setWindowOpenHandler(() => ({ action: 'deny' }));
  webContents.on('will-navigate', (event) => event.preventDefault());
  webContents.ipc.handleOnce(RECORD_TAKE, () => o.content);
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

function notDrawn(why: string, o: PrintPage): WakelineError {
  return new WakelineError({
    code: 'file-not-written',
    what: `${o.called} could not be printed: ${why}`,
    where: o.path,
    todo: 'Nothing was written and the job is unchanged. Export it again; if it comes back, restart the app.',
  });
}
