import path from 'node:path';
import { app, BrowserWindow, globalShortcut, powerMonitor } from 'electron';
import type { Calls, EventName, Events, Handlers } from '../../core/contract/contract.ts';
import { type Trouble, troubleOf } from '../../core/errors.ts';
import { createAttention } from '../attention/attention.ts';
import { createKeysAnywhere } from '../attention/keys-anywhere.ts';
import { createBench } from '../bench/bench.ts';
import { createHandsFree, type HandsFree } from '../bench/hands-free.ts';
import { openInstrumentLines } from '../bench/instrument-lines.ts';
import { monotonicClock } from '../bench/monotonic-clock.ts';
import { registerCalls, tell } from '../ipc/register-calls.ts';
import { takeRestored } from '../ledger/copies/take-restored.ts';
import { type Ledger, openLedger } from '../ledger/ledger-client.ts';
import { sqliteBinding } from '../ledger/sqlite-binding.ts';
import { watchNoteFile } from '../watch/watch-note-file.ts';
import { watchOwnApp } from '../watch/watch-own-app.ts';
import { appHandlers } from './app-handlers.ts';
import { attentionHandlers } from './attention-handlers.ts';
import { startBackupClock } from './backup-clock.ts';
import { copyHandlers } from './copy-handlers.ts';
import { openMainWindow } from './main-window.ts';
import { createReadoutWindow } from './readout-window.ts';
import { setupHandlers } from './setup-handlers.ts';
import { showNotice } from './show-notice.ts';
import { sleepBlocker } from './sleep-blocker.ts';
import { templateFileHandlers } from './template-file-handlers.ts';
import { traceFileHandlers } from './trace-file-handlers.ts';
import { keepWindowAlive } from './window-policy.ts';
import { withBoardFacts } from './with-board-facts.ts';

/** Where the pretend bench's noise starts: the same bench every day. */
const PRETEND_SEED = 1;

/** Start-up as a list: ledger, bench, calls, window, then what was chosen last is connected. */
export async function openApp(o: {
  out: string;
  ledgerPath: string;
  /** Told before the first window asks for anything. */
  ledgerOpened: (ledger: Ledger) => void;
}): Promise<void> {
  let window: BrowserWindow | null = null;
  let handsFree: HandsFree | null = null;
  const dataFolder = path.dirname(o.ledgerPath);
  const preload = path.join(o.out, 'preload.cjs');
  const readout = createReadoutWindow(preload, path.join(dataFolder, 'readout-window.json'));
  const attention = createAttention({
    file: path.join(dataFolder, 'attention.json'),
    blocker: sleepBlocker(),
    show: (notice) => showNotice(notice, () => window?.focus()),
  });
  const say = <E extends EventName>(event: E, fact: Events[E]) => {
    if (window !== null) tell(window.webContents, event, fact);
    // The readout draws no trace: batches are acknowledged by who draws them.
    if (readout.contents !== null && event !== 'liveBatch') tell(readout.contents, event, fact);
    attention.hear(event, fact);
    handsFree?.hear(event, fact);
  };
  const binding = sqliteBinding();
  takeRestored(o.ledgerPath, Date.now());
  const ledger = await openLedger({
    path: o.ledgerPath,
    workerEntry: path.join(o.out, 'ledger-worker.js'),
    ...(binding === undefined ? {} : { nativeBinding: binding }),
    onJobChanged: (jobId) => say('jobChanged', { jobId }),
    onTraceProgress: (progress) => say('traceProgress', progress),
    onCopyProgress: (progress) => say('copyProgress', progress),
    app: app.getVersion(),
  });
  o.ledgerOpened(ledger);
  const lines = openInstrumentLines({
    dialectFolder: path.join(dataFolder, 'dialects'),
    clock: monotonicClock,
    wallMs: Date.now,
  });
  const bench = createBench({
    lines,
    clock: monotonicClock,
    wallMs: Date.now,
    recorder: ledger.recorder,
    hunts: ledger.handlers,
    readJob: async (id) => withBoardFacts(ledger, (await ledger.handlers.readJob({ id })).job),
    tell: say,
    addressFile: path.join(path.dirname(o.ledgerPath), 'instruments.json'),
    seed: PRETEND_SEED,
    meterReading: (reading, midMs) => handsFree?.meterReading(reading, midMs),
    supplyReading: (reading, midMs) => handsFree?.supplyReading(reading, midMs),
    startWatch: watchOwnApp(dataFolder),
    guardFile: path.join(dataFolder, 'guard.json'),
    watchNoteFile: watchNoteFile(dataFolder),
  });
  const hands = createHandsFree({
    bench: () => bench.state,
    acts: bench.handlers,
    ledger: ledger.handlers,
    wallMs: Date.now,
    tell: say,
  });
  handsFree = hands;
  const anywhere = createKeysAnywhere({
    system: globalShortcut,
    isWanted: () => attention.settings.keysAnywhere,
    isInFront: () => BrowserWindow.getFocusedWindow() !== null,
    keys: [
      ['F8', () => void hands.pedal().catch(() => {})],
      ['F9', () => void bench.outputOff().catch((t) => say('alarmRaised', troubleOf(t, 'F9')))],
    ],
  });
  app.on('browser-window-focus', anywhere.look);
  app.on('browser-window-blur', anywhere.look);
  const handlers: Handlers<Calls> = {
    ...ledger.handlers,
    ...bench.handlers,
    ...hands.handlers,
    ...attentionHandlers({ attention, readout, chosen: () => anywhere.look() }),
    ...appHandlers({ bench, ledger, out: o.out, window: () => window }),
    ...setupHandlers({ lines, window: () => window }),
    ...traceFileHandlers({ ledger, window: () => window }),
    ...copyHandlers({
      ledger,
      window: () => window,
      told: (state) => say('copiesChanged', state),
    }),
    ...templateFileHandlers({ ledger, window: () => window }),
  };
  registerCalls(
    handlers,
    (contents) => contents === window?.webContents || contents === readout.contents,
  );
  window = openMainWindow(preload);
  window.on('closed', () => readout.hide());
  for (const event of ['blur', 'minimize', 'hide', 'closed'] as const) {
    window.on(event as 'blur', () => bench.letGo('the window lost the keyboard'));
  }
  window.webContents.on('render-process-gone', () => bench.letGo('the window stopped'));
  keepWindowAlive(window, bench, (trouble: Trouble) => say('alarmRaised', trouble));
  app.on('second-instance', () => {
    window?.restore();
    window?.focus();
  });
  powerMonitor.on('suspend', () => {
    if (bench.isOutputOn) bench.outputOff().catch(() => {});
  });
  const backups = startBackupClock({
    ledger,
    told: (state) => say('copiesChanged', state),
    alarm: (trouble) => say('alarmRaised', trouble),
  });
  let closing = false;
  app.on('before-quit', (event) => {
    if (closing) return;
    event.preventDefault();
    closing = true;
    anywhere.close();
    attention.close();
    backups.stop();
    hands
      .close()
      .catch((thrown) => console.error(troubleOf(thrown, 'closing').what))
      .then(() => bench.close())
      .catch((thrown) => console.error(troubleOf(thrown, 'closing').what))
      .then(() => ledger.close())
      .catch((thrown) => console.error(troubleOf(thrown, 'closing').what))
      .finally(() => app.quit());
  });
  app.on('window-all-closed', () => app.quit());
  await bench.start();
}
