import { existsSync, readFileSync, renameSync, writeFileSync } from 'node:fs';
import { BrowserWindow, type Rectangle, screen, type WebContents } from 'electron';
import { z } from 'zod';
import { APP_ORIGIN } from './app-protocol.ts';
import { safeWindow } from './window-options.ts';

/** The small window that stays on top, beside the microscope's picture. */
export interface ReadoutWindow {
  readonly isShown: boolean;
  readonly contents: WebContents | null;
  show(): void;
  hide(): void;
}

const SIZE = { width: 420, height: 236 };
const SMALLEST = { minWidth: 300, minHeight: 180 };
const KEEP_AFTER_MS = 400;

const place = z.object({
  x: z.number().int(),
  y: z.number().int(),
  width: z.number().int().min(SMALLEST.minWidth).max(4000),
  height: z.number().int().min(SMALLEST.minHeight).max(4000),
});

/** Makes it, hidden. `file` keeps where it was dragged. */
export function createReadoutWindow(preload: string, file: string): ReadoutWindow {
  let window: BrowserWindow | null = null;
  let timer: NodeJS.Timeout | null = null;

  function keep(bounds: Rectangle): void {
    writeFileSync(`${file}.new`, JSON.stringify(bounds));
    renameSync(`${file}.new`, file);
  }

  function open(): BrowserWindow {
    const made = new BrowserWindow({
      ...safeWindow(preload),
      ...SIZE,
      ...SMALLEST,
      ...keptPlace(file),
      show: false,
      alwaysOnTop: true,
      maximizable: false,
      fullscreenable: false,
      minimizable: false,
      skipTaskbar: true,
      autoHideMenuBar: true,
      backgroundColor: '#0f1a1c',
      title: 'Wakeline readout',
    });
    made.setAlwaysOnTop(true, 'floating');
    made.removeMenu();
    made.once('ready-to-show', () => made.showInactive());
    const moved = () => {
      if (timer) clearTimeout(timer);
      timer = setTimeout(() => {
        if (!made.isDestroyed()) keep(made.getBounds());
      }, KEEP_AFTER_MS);
    };
    made.on('move', moved);
    made.on('resize', moved);
    made.on('close', () => keep(made.getBounds()));
    made.on('closed', () => {
      window = null;
    });
    void made.loadURL(`${APP_ORIGIN}/readout/index.html`);
    return made;
  }

  return {
    get isShown() {
      return window !== null;
    },
    get contents() {
      return window?.webContents ?? null;
    },
    show() {
      if (window === null) window = open();
      else window.moveTop();
    },
    hide() {
      window?.close();
    },
  };
}

/** Where it was, if that is still on a screen: one that was unplugged must not hide it. */
function keptPlace(file: string): Partial<Rectangle> {
  if (!existsSync(file)) return {};
  try {
    const kept = place.parse(JSON.parse(readFileSync(file, 'utf8')));
    const isSeen = screen.getAllDisplays().some(({ workArea }) => {
      const across = overlap(kept.x, kept.width, workArea.x, workArea.width);
      return across >= 80 && overlap(kept.y, kept.height, workArea.y, workArea.height) >= 60;
    });
    return isSeen ? kept : { width: kept.width, height: kept.height };
  } catch {
    return {};
  }
}

function overlap(a: number, aSize: number, b: number, bSize: number): number {
  return Math.min(a + aSize, b + bSize) - Math.max(a, b);
}
