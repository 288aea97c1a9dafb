import { spawn } from 'node:child_process';
import path from 'node:path';
import { createInterface } from 'node:readline';
import type { Events } from '../../core/contract/contract.ts';
import { troubleOf } from '../../core/errors.ts';
import { createBench } from '../../electron/bench/bench.ts';
import { openInstrumentLines } from '../../electron/bench/instrument-lines.ts';
import { monotonicClock } from '../../electron/bench/monotonic-clock.ts';
import { keepAddresses } from '../../electron/bench/remembered-addresses.ts';
import { openLedger } from '../../electron/ledger/ledger-client.ts';
import { hostWatcher } from '../../electron/watch/watch-host.ts';
import { watchNoteFile } from '../../electron/watch/watch-note-file.ts';
import { watchSocket } from '../../electron/watch/watch-socket.ts';

/**
 * The app's main without its window, in a process of its own under Node: the same bench, ledger
 * worker, guards and watcher. Arguments: data folder, supply's address as JSON. It takes a word a
 * line on standard input (`on`, `off`, `block MS`, `quit`, `call NAME JSON`, `watcher`) and says
 * JSON lines.
 */
const [dataFolder, address, workerEntry] = process.argv.slice(2) as [string, string, string];
const say = (line: unknown) => process.stdout.write(`${JSON.stringify(line)}\n`);

const ledger = await openLedger({
  path: path.join(dataFolder, 'ledger.sqlite'),
  workerEntry: new URL(workerEntry),
});
const addressFile = path.join(dataFolder, 'instruments.json');
keepAddresses(addressFile, { supply: JSON.parse(address), meter: null });
let watcherPid: number | null = null;
const bench = createBench({
  lines: openInstrumentLines({
    dialectFolder: path.join(dataFolder, 'dialects'),
    clock: monotonicClock,
    wallMs: Date.now,
  }),
  clock: monotonicClock,
  wallMs: Date.now,
  recorder: ledger.recorder,
  hunts: ledger.handlers,
  readJob: async (id) => (await ledger.handlers.readJob({ id })).job,
  tell: <E extends keyof Events>(event: E, fact: Events[E]) => {
    if (event === 'alarmRaised') say({ alarm: fact, atMs: Date.now() });
  },
  addressFile,
  seed: 1,
  guardFile: path.join(dataFolder, 'guard.json'),
  watchNoteFile: watchNoteFile(dataFolder),
  startWatch: async (hooks) => {
    const host = await hostWatcher({
      ...hooks,
      socketPath: watchSocket(dataFolder, process.platform),
      start({ socketPath, token }) {
        const child = spawn(
          process.execPath,
          [
            path.join(import.meta.dirname, 'watcher-process.ts'),
            socketPath,
            watchNoteFile(dataFolder),
            String(process.pid),
          ],
          {
            detached: true,
            stdio: 'ignore',
            env: { ...process.env, WAKELINE_WATCH_TOKEN: token },
          },
        );
        child.unref();
        watcherPid = child.pid ?? null;
        return child;
      },
    });
    return host;
  },
});
say({ starting: true });
await bench.start();
bench.windowOpened();
say({ started: true });

const answer = async (act: () => unknown) => {
  try {
    say({ answer: await act() });
  } catch (thrown) {
    say({ trouble: troubleOf(thrown, 'guarded process') });
  }
};
createInterface({ input: process.stdin }).on('line', (line) => {
  const [word, name, ...rest] = line.split(' ');
  if (word === 'block') {
    const endMs = performance.now() + Number(name);
    say({ answer: null });
    // A loop that no timer gets through: what a hung main is.
    while (performance.now() < endMs);
  } else if (word === 'watcher') say({ answer: watcherPid });
  else if (word === 'quit') {
    void answer(async () => {
      await bench.close();
      await ledger.close();
      setImmediate(() => process.exit(0));
    });
  } else if (word === 'call') {
    const handlers = { ...ledger.handlers, ...bench.handlers } as Record<
      string,
      (given: unknown) => unknown
    >;
    void answer(() => handlers[name!]!(JSON.parse(rest.join(' '))));
  }
});
