import type { BrowserWindowConstructorOptions } from 'electron';

/** What every window shares: the page is isolated, sandboxed and without Node. */
export function safeWindow(preload: string): BrowserWindowConstructorOptions {
  return {
    webPreferences: {
      preload,
      contextIsolation: true,
      sandbox: true,
      nodeIntegration: false,
      webSecurity: true,
      webviewTag: false,
      spellcheck: false,
      navigateOnDragDrop: false,
      backgroundThrottling: false,
      // A tone must not wait for a click: hands and eyes are elsewhere.
      autoplayPolicy: 'no-user-gesture-required',
    },
  };
}
