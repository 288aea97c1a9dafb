import { type ChildProcess, spawn } from 'node:child_process';

/** The command-line switch that makes the app's own executable the watcher; its value: where main listens. */
export const WATCH_SWITCH = 'watch';
/** The environment variable with the token: the command line can be read by everybody. */
export const WATCH_TOKEN = 'WAKELINE_WATCH_TOKEN';

export interface WatcherStart {
  readonly socketPath: string;
  readonly token: string;
}

/** How to start this very app again: from a checkout its folder comes first, packaged it does not. */
export interface OwnExecutable {
  readonly execPath: string;
  readonly appArgs: readonly string[];
  readonly dataFolder: string;
  readonly platform: NodeJS.Platform;
}

/**
 * Starts the app's own executable as the watcher, detached: in a session of its own it outlives
 * main's process group. On Linux it draws on no screen, so that the end of the display, which
 * takes main with it, does not take the watcher.
 */
export function startWatcher(own: OwnExecutable, start: WatcherStart): ChildProcess {
  const child = spawn(
    own.execPath,
    [
      ...own.appArgs,
      `--user-data-dir=${own.dataFolder}`,
      `--${WATCH_SWITCH}=${start.socketPath}`,
      `--${WATCH_SWITCH}-main=${process.pid}`,
      ...(own.platform === 'linux' ? ['--ozone-platform=headless'] : []),
    ],
    {
      detached: true,
      stdio: 'ignore',
      windowsHide: true,
      env: { ...process.env, [WATCH_TOKEN]: start.token },
    },
  );
  child.unref();
  return child;
}
