import type { BrowserWindow } from 'electron';
import type { Trouble } from '../../core/errors.ts';
import { isAlive } from '../runtime/is-alive.ts';
import { letDrawLater } from '../runtime/thread-priority.ts';
import { APP_ORIGIN } from './app-protocol.ts';
import { createWindowPulse, PULSE_MS } from './window-pulse.ts';

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
 * What happens when the window's process dies, or its page stands still, while main lives: recording
 * goes on and the window is loaded again; after a second time within a minute the output goes off
 * as well. Electron's own word of it is not relied on: it may come only at quitting.
 */
export function keepWindowAlive(
  window: BrowserWindow,
  bench: WatchedBench,
  alarm: (trouble: Trouble) => void,
): void {
  let lastCrashMs = Number.NEGATIVE_INFINITY;
  let isComingBack = false;
  /** Told once the page that shows it is there. */
  let untold: Trouble | null = null;
  const { webContents } = window;
  const pulse = createWindowPulse({
    contents: webContents,
    isAlive,
    nowMs: () => performance.now(),
    gone(why) {
      // Also when it is dead already: Electron may not have noticed.
      webContents.forcefullyCrashRenderer();
      bringBack(why);
    },
  });
  const looking = setInterval(pulse.look, PULSE_MS);
  window.once('closed', () => clearInterval(looking));
  webContents.on('did-finish-load', () => {
    if (!webContents.getURL().startsWith(`${APP_ORIGIN}/`) || !isLiving(window)) return;
    isComingBack = false;
    pulse.cameBack();
    letDrawLater(webContents.getOSProcessId());
    bench.windowOpened();
    if (untold !== null) alarm(untold);
    untold = null;
  });
  webContents.on('render-process-gone', (_event, details) => {
    if (details.reason !== 'clean-exit') bringBack(details.reason);
  });

  function bringBack(why: string): void {
    if (isComingBack) return;
    isComingBack = true;
    const nowMs = performance.now();
    const again = nowMs - lastCrashMs < CRASHES_WITHIN_MS;
    lastCrashMs = nowMs;
    const off = again && bench.isOutputOn;
    if (off) bench.outputOff().catch(() => {});
    untold = {
      code: 'internal',
      what: `The window stopped (${why}) and was opened again`,
      where: 'window',
      todo: off
        ? 'It was the second time within a minute, so the output was switched off.'
        : 'Recording went on meanwhile; look at the board.',
    };
    // Not from inside this event: the frame that is to be loaded again is still being taken down.
    setTimeout(() => loadAgain(window), LOAD_AFTER_MS);
  }
}

/** A load into a process that is dead may be told to have finished all the same. */
const isLiving = ({ webContents }: BrowserWindow) => isAlive(webContents.getOSProcessId());

/** An empty page of nobody's: it is drawn by another process than ours. */
const ELSEWHERE = 'data:text/html,';

/**
 * Loads the page anew, again and again: right after a crash a load may be lost without a word. Where
 * Electron has not noticed the death, the page would be loaded in the process that is dead: from the
 * second time on, the window goes elsewhere first.
 */
function loadAgain(window: BrowserWindow, time = 1): void {
  if (window.isDestroyed()) return;
  const retry = setTimeout(() => loadAgain(window, time + 1), LOAD_AGAIN_MS * time);
  const load = () => {
    window.webContents.once('did-finish-load', () => {
      if (isLiving(window)) clearTimeout(retry);
    });
    window.loadURL(`${APP_ORIGIN}/index.html`).catch(() => {});
  };
  if (time === 1) load();
  else window.loadURL(ELSEWHERE).then(load, load);
}
