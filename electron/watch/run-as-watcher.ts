import path from 'node:path';
import { app } from 'electron';
import { WATCH_SWITCH, WATCH_TOKEN } from './start-watcher.ts';
import { watchNoteFile } from './watch-note-file.ts';
import { runWatcher } from './watcher.ts';

/**
 * This process as the watcher: a normal Electron main that opens no window, so that it works with
 * the run-as-node fuse off. Its drawing side is headless (see `start-watcher.ts`) and its profile
 * is a folder of its own, so that it neither needs the screen nor shares main's files.
 */
export function runAsWatcher(dataFolder: string): void {
  app.disableHardwareAcceleration();
  app.setPath('sessionData', path.join(dataFolder, 'watcher'));
  app.dock?.hide();
  // A log-out or shutdown ends main first, which switches off itself or is found dead.
  for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => {});
  app.on('before-quit', (event) => event.preventDefault());
  // Whatever fails must not keep it from trying again.
  process.on('uncaughtException', (thrown) => console.error(thrown));
  const mainPid = Number(app.commandLine.getSwitchValue(`${WATCH_SWITCH}-main`));
  void runWatcher({
    socketPath: app.commandLine.getSwitchValue(WATCH_SWITCH),
    token: process.env[WATCH_TOKEN] ?? '',
    noteFile: watchNoteFile(dataFolder),
    mainPid,
  }).then(() => app.exit(0));
}
