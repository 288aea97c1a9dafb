import { app, type Session, type WebContents } from 'electron';
import { APP_ORIGIN } from './app-protocol.ts';

/** Refuses every permission and every request that is not the app's own pages. */
function lockSession(session: Session): void {
  session.setPermissionRequestHandler((_contents, _permission, answer) => answer(false));
  session.setPermissionCheckHandler(() => false);
  session.setDevicePermissionHandler(() => false);
  session.webRequest.onBeforeRequest((details, answer) => {
    const own =
      details.url.startsWith(`${APP_ORIGIN}/`) ||
      details.url.startsWith('devtools:') ||
      details.url.startsWith('data:') ||
      details.url.startsWith('blob:');
    answer({ cancel: !own });
  });
}

function lockContents(contents: WebContents): void {
  contents.setWindowOpenHandler(() => ({ action: 'deny' }));
  contents.on('will-navigate', (event) => event.preventDefault());
  contents.on('will-redirect', (event) => event.preventDefault());
  contents.on('will-frame-navigate', (event) => event.preventDefault());
  contents.on('will-attach-webview', (event) => event.preventDefault());
}

/** Applies to every window the app ever makes: no navigation, no new windows, no permissions. */
export function lockDown(): void {
  app.on('session-created', lockSession);
  app.on('web-contents-created', (_event, contents) => lockContents(contents));
}
