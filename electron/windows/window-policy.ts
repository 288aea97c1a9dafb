import type { BrowserWindow } from 'electron';
import type { Trouble } from '../../core/errors.ts';
import { letDrawLater } from '../runtime/thread-priority.ts';
import { APP_ORIGIN } from './app-protocol.ts';

/** A second crash of the window within this time means that nobody can see the draw any more. */
const CRASHES_WITHIN_MS = 60_000;
const LOAD_AFTER_MS = 200;
const LOAD_AGAIN_MS = 3000;

interface WatchedBench {
  readonly isOutputOn: boolean;
  windowOpened(): void;
  outputOff(): Promise<void>;
}

/**
 * What happens when the window's process dies while main lives: recording goes on and the window
 * is loaded again; after a second crash within a minute the output goes off as well.
 */
export function keepWindowAlive(
  window: BrowserWindow,
  bench: WatchedBench,
  alarm: (trouble: Trouble) => void,
): void {
  let lastCrashMs = Number.NEGATIVE_INFINITY;
  window.webContents.on('did-finish-load', () => {
    letDrawLater(window.webContents.getOSProcessId());
    bench.windowOpened();
  });
  window.webContents.on('render-process-gone', (_event, details) => {
    if (details.reason === 'clean-exit') return;
    const nowMs = performance.now();
    const again = nowMs - lastCrashMs < CRASHES_WITHIN_MS;
    lastCrashMs = nowMs;
    const off = again && bench.isOutputOn;
    if (off) bench.outputOff().catch(() => {});
    window.webContents.once('did-finish-load', () =>
      alarm({
        code: 'internal',
        what: `The window stopped (${details.reason}) and was opened again`,
        where: 'window',
        todo: off
          ? 'It was the second time within a minute, so the output was switched off.'
          : 'Recording went on meanwhile; look at the board.',
      }),
    );
    // Not from inside this event: the frame that is to be loaded again is still being taken down.
    setTimeout(() => loadAgain(window), LOAD_AFTER_MS);
  });
}

/** Loads the page anew, again and again: right after a crash a load may be lost without a word. */
function loadAgain(window: BrowserWindow): void {
  if (window.isDestroyed()) return;
  const retry = setTimeout(() => loadAgain(window), LOAD_AGAIN_MS);
  window.webContents.once('did-finish-load', () => clearTimeout(retry));
  window.loadURL(`${APP_ORIGIN}/index.html`).catch(() => {});
}
