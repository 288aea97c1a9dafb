import path from 'node:path';
import { app } from 'electron';
import { troubleOf } from '../core/errors.ts';
import type { Ledger } from './ledger/ledger-client.ts';
import { goFirst } from './runtime/thread-priority.ts';
import { runAsWatcher } from './watch/run-as-watcher.ts';
import { WATCH_SWITCH } from './watch/start-watcher.ts';
import { APP_SCHEME, declareAppScheme, serveApp } from './windows/app-protocol.ts';
import { lockDown } from './windows/lock-down.ts';
import { openApp } from './windows/open-app.ts';
import { pictureResponse } from './windows/picture-response.ts';
import { sayAndQuit } from './windows/say-and-quit.ts';

goFirst();
const out = import.meta.dirname;
const ownData = app.commandLine.getSwitchValue('user-data-dir');
if (ownData) app.setPath('userData', path.resolve(ownData));

if (app.commandLine.hasSwitch(WATCH_SWITCH)) {
  runAsWatcher(app.getPath('userData'));
} else if (!app.requestSingleInstanceLock()) {
  app.exit(0);
} else {
  declareAppScheme();
  lockDown();
  app
    .whenReady()
    .then(async () => {
      let ledger: Ledger | null = null;
      serveApp(path.join(out, 'renderer'), (pathname) => pictureResponse(pathname, ledger));
      await openApp({
        out,
        ledgerPath: path.join(app.getPath('userData'), 'ledger.sqlite'),
        ledgerOpened: (opened) => {
          ledger = opened;
        },
      });
    })
    .catch((thrown) => sayAndQuit(troubleOf(thrown, APP_SCHEME)));
}
