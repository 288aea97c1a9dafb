import { runWatcher } from '../../electron/watch/watcher.ts';

/**
 * The watcher as a process of its own under Node: all of it but the Electron start around it.
 * Arguments: socket, note file, main's process id.
 */
const [socketPath, noteFile, mainPid] = process.argv.slice(2);
for (const signal of ['SIGINT', 'SIGTERM', 'SIGHUP'] as const) process.on(signal, () => {});
await runWatcher({
  socketPath: socketPath!,
  token: process.env.WAKELINE_WATCH_TOKEN ?? '',
  noteFile: noteFile!,
  mainPid: Number(mainPid),
});
process.exit(0);
