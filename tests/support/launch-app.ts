import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { _electron, type ElectronApplication, type Page } from '@playwright/test';
import { readyApp } from '../../electron/runtime/ready.ts';

/** The real app in its real window, on a data folder of its own. */
export interface LaunchedApp {
  readonly app: ElectronApplication;
  readonly page: Page;
  readonly dataFolder: string;
  /** Ends the app as a person closing it would. */
  close(): Promise<void>;
}

/** Starts the app. A data folder that is handed in is kept; one of our own goes with `close`. */
export async function launchApp(
  o: { dataFolder?: string; args?: readonly string[]; env?: Record<string, string> } = {},
): Promise<LaunchedApp> {
  const ready = await readyApp(() => {});
  const dataFolder = o.dataFolder ?? mkdtempSync(path.join(tmpdir(), 'wakeline-data-'));
  const app = await _electron.launch({
    executablePath: ready.electron.path,
    args: [...ready.args, `--user-data-dir=${dataFolder}`, ...(o.args ?? [])],
    env: { ...(process.env as Record<string, string>), ...ready.env, ...o.env },
  });
  const page = await app.firstWindow();
  await page.waitForLoadState('load');
  // Keys are heard once the page is drawn; a page of another kind has nothing to wait for.
  if ((await page.locator('#window').count()) > 0)
    await page.locator('#window > *').first().waitFor();
  return {
    app,
    page,
    dataFolder,
    async close() {
      await app.close();
      if (o.dataFolder === undefined) rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}
