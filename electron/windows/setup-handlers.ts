import path from 'node:path';
import { app, type BrowserWindow, dialog } from 'electron';
import type { Handlers } from '../../core/contract/contract.ts';
import type { setupCalls } from '../../core/contract/setup-calls.ts';
import { findInstrument, USUAL_BAUDS } from '../bench/find-instrument.ts';
import type { InstrumentLines } from '../bench/instrument-lines.ts';
import { monotonicClock } from '../bench/monotonic-clock.ts';
import { openSerialLink } from '../bench/serial-link.ts';
import { openTcpLink } from '../bench/tcp-link.ts';

/** The calls that find things out about instruments. */
export function setupHandlers(parts: {
  readonly lines: InstrumentLines;
  window(): BrowserWindow | null;
}): Handlers<typeof setupCalls> {
  return {
    askWhoIsThere: (at) =>
      at.by === 'serial'
        ? findInstrument({
            open: (baud) => openSerialLink(at.path, baud ?? USUAL_BAUDS[0]!),
            bauds: USUAL_BAUDS,
            clock: monotonicClock,
          })
        : findInstrument({
            open: () => openTcpLink(at.host, at.port),
            bauds: null,
            clock: monotonicClock,
          }),
    saveByteLog: async ({ role }) => {
      const asked = {
        title: 'Save the byte log',
        defaultPath: path.join(app.getPath('documents'), `${role} bytes.txt`),
        filters: [{ name: 'Text', extensions: ['txt'] }],
      };
      const window = parts.window();
      const chosen = await (window
        ? dialog.showSaveDialog(window, asked)
        : dialog.showSaveDialog(asked));
      if (chosen.canceled || !chosen.filePath) return null;
      await parts.lines.logs[role].save(chosen.filePath);
      return { path: chosen.filePath };
    },
  };
}
