import { BrowserWindow } from 'electron';
import { APP_ORIGIN } from './app-protocol.ts';
import { safeWindow } from './window-options.ts';

/** Opens the one window. It shows once drawn, so that it never flashes empty. */
export function openMainWindow(preload: string): BrowserWindow {
  const window = new BrowserWindow({
    ...safeWindow(preload),
    width: 1440,
    height: 900,
    minWidth: 1100,
    minHeight: 680,
    show: false,
    autoHideMenuBar: true,
    backgroundColor: '#f4f6f1',
    title: 'Wakeline',
  });
  window.removeMenu();
  window.once('ready-to-show', () => window.show());
  void window.loadURL(`${APP_ORIGIN}/index.html`);
  return window;
}
