import path from 'node:path';
import { app, type BrowserWindow, powerMonitor } from 'electron';
import type { Calls, EventName, Events, Handlers } from '../../core/contract/contract.ts';
import { type Trouble, troubleOf } from '../../core/errors.ts';
import { createBench } from '../bench/bench.ts';
import { monotonicClock } from '../bench/monotonic-clock.ts';
import { registerCalls, tell } from '../ipc/register-calls.ts';
import { openLedger } from '../ledger/ledger-client.ts';
import { sqliteBinding } from '../ledger/sqlite-binding.ts';
import { watchNoteFile } from '../watch/watch-note-file.ts';
import { watchOwnApp } from '../watch/watch-own-app.ts';
import { appHandlers } from './app-handlers.ts';
import { openMainWindow } from './main-window.ts';
import { traceFileHandlers } from './trace-file-handlers.ts';
import { keepWindowAlive } from './window-policy.ts';

/** Where the pretend bench's noise starts: the same bench every day. */
const PRETEND_SEED = 1;

/** Start-up as a list: ledger, bench, calls, window, then what was chosen last is connected. */
export async function openApp(o: { out: string; ledgerPath: string }): Promise<void> {
  let window: BrowserWindow | null = null;
  const say = <E extends EventName>(event: E, fact: Events[E]) => {
    if (window !== null) tell(window.webContents, event, fact);
  };
  const dataFolder = path.dirname(o.ledgerPath);
  const binding = sqliteBinding();
  const ledger = await openLedger({
    path: o.ledgerPath,
    workerEntry: path.join(o.out, 'ledger-worker.js'),
    ...(binding === undefined ? {} : { nativeBinding: binding }),
    onJobChanged: (jobId) => say('jobChanged', { jobId }),
    onTraceProgress: (progress) => say('traceProgress', progress),
  });
  const bench = createBench({
    clock: monotonicClock,
    wallMs: Date.now,
    recorder: ledger.recorder,
    readJob: async (id) => (await ledger.handlers.readJob({ id })).job,
    tell: say,
    addressFile: path.join(path.dirname(o.ledgerPath), 'instruments.json'),
    seed: PRETEND_SEED,
    startWatch: watchOwnApp(dataFolder),
    guardFile: path.join(dataFolder, 'guard.json'),
    watchNoteFile: watchNoteFile(dataFolder),
    markRun: async (id, text) => {
      const { run } = await ledger.handlers.readRun({ id });
      await ledger.handlers.addRunNote({ id, atS: run.durationS, text });
    },
  });
  const handlers: Handlers<Calls> = {
    ...ledger.handlers,
    ...bench.handlers,
    ...appHandlers({ bench, ledger, out: o.out, window: () => window }),
    ...traceFileHandlers({ ledger, window: () => window }),
  };
  registerCalls(handlers, (contents) => contents === window?.webContents);
  window = openMainWindow(path.join(o.out, 'preload.cjs'));
  keepWindowAlive(window, bench, (trouble: Trouble) => say('alarmRaised', trouble));
  app.on('second-instance', () => {
    window?.restore();
    window?.focus();
  });
  powerMonitor.on('suspend', () => {
    if (bench.isOutputOn) bench.outputOff().catch(() => {});
  });
  let closing = false;
  app.on('before-quit', (event) => {
    if (closing) return;
    event.preventDefault();
    closing = true;
    bench
      .close()
      .catch((thrown) => console.error(troubleOf(thrown, 'closing').what))
      .then(() => ledger.close())
      .catch((thrown) => console.error(troubleOf(thrown, 'closing').what))
      .finally(() => app.quit());
  });
  app.on('window-all-closed', () => app.quit());
  await bench.start();
}
