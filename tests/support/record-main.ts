import { readFileSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import { app, BrowserWindow } from 'electron';
import { troubleOf } from '../../core/errors.ts';
import type { JobRecord, Paper } from '../../core/record/record-content.ts';
import { exportRecord } from '../../electron/record/export-record.ts';
import { APP_ORIGIN, declareAppScheme, serveApp } from '../../electron/windows/app-protocol.ts';
import { lockDown } from '../../electron/windows/lock-down.ts';

/** One record to print, as the test asks for it. */
export interface PrintRequest {
  readonly record: JobRecord;
  readonly paper: Paper;
  readonly path: string;
  /** Files of its pictures by their ids; those left out are lost. */
  readonly pictures?: Readonly<Record<string, string>>;
  /** Instead of the print page: a page that never says that it has drawn. */
  readonly pageUrl?: string;
  readonly timeoutMs?: number;
  /** Ends the page's process while it loads. */
  readonly crash?: boolean;
}

/** The app's own export, run by a test: prints every request of a file, answers in another. */
const built = import.meta.dirname;
const asked = process.env.WAKELINE_PRINT_REQUESTS!;
const answered = process.env.WAKELINE_PRINT_ANSWERS!;

declareAppScheme();
lockDown();
app.on('window-all-closed', () => {});
app.whenReady().then(async () => {
  let files: Readonly<Record<string, string>> = {};
  serveApp(path.join(built, 'renderer'), async (pathname) => {
    const id = /^\/pictures\/([^/]+)\/sheet$/.exec(pathname)?.[1];
    if (id === undefined) return null;
    const file = files[id];
    return file === undefined
      ? new Response('Lost', { status: 410 })
      : new Response(new Uint8Array(readFileSync(file)), {
          headers: { 'content-type': file.endsWith('.png') ? 'image/png' : 'image/jpeg' },
        });
  });
  const answers: object[] = [];
  for (const request of JSON.parse(readFileSync(asked, 'utf8')) as PrintRequest[]) {
    files = request.pictures ?? {};
    const events: string[] = [];
    let preferences = {};
    try {
      const value = await exportRecord({
        pageUrl: `${APP_ORIGIN}/record/index.html`,
        ...request,
        preload: path.join(built, 'record-preload.cjs'),
        createWindow: (options) => {
          preferences = options.webPreferences ?? {};
          const window = new BrowserWindow(options);
          if (request.crash) {
            window.webContents.once('did-start-loading', () =>
              window.webContents.forcefullyCrashRenderer(),
            );
          }
          window.webContents.on('console-message', (_event, _level, message) =>
            events.push(message),
          );
          return window;
        },
      });
      answers.push({ ok: true, value, events, preferences });
    } catch (thrown) {
      answers.push({ ok: false, trouble: troubleOf(thrown, 'record-main'), events, preferences });
    }
  }
  const windowsLeft = BrowserWindow.getAllWindows().length;
  writeFileSync(answered, JSON.stringify(answers.map((answer) => ({ ...answer, windowsLeft }))));
  app.exit(0);
});
