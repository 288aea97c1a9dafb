import { app } from 'electron';
import { startWatcher } from './start-watcher.ts';
import { hostWatcher, type WatchHost, type WatchHostHooks } from './watch-host.ts';
import { watchSocket } from './watch-socket.ts';

/** Starts this app's own executable as the watcher of this main. */
export function watchOwnApp(dataFolder: string) {
  const sandboxArgs = app.commandLine.hasSwitch('no-sandbox') ? ['--no-sandbox'] : [];
  const own = {
    execPath: process.execPath,
    appArgs: [...sandboxArgs, ...(app.isPackaged && !process.defaultApp ? [] : [app.getAppPath()])],
    dataFolder,
    platform: process.platform,
  };
  return (hooks: WatchHostHooks): Promise<WatchHost> =>
    hostWatcher({
      ...hooks,
      socketPath: watchSocket(dataFolder, process.platform),
      start: (start) => startWatcher(own, start),
    });
}
