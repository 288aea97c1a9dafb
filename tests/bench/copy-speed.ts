import { createHash } from 'node:crypto';
import { copyFileSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { exportLedger } from '../../electron/ledger/copies/export-ledger.ts';
import { openLedgerInThread } from '../../electron/ledger/open-ledger-in-thread.ts';
import { fillLedger } from '../support/fill-ledger.ts';
import { runStart, samples } from '../support/ledger-samples.ts';
import { openBare } from '../support/ledger-schema.ts';
import { openSeededLedger } from '../support/seed-ledger.ts';
import { type Measure, measure } from './measure.ts';

const MEGABYTES = 60;

/** Longest time that this thread's loop stood still while `work` was done, ms. */
async function longestWait<T>(work: Promise<T>): Promise<{ waitMs: number; value: T }> {
  let last = performance.now();
  let waitMs = 0;
  const timer = setInterval(() => {
    const now = performance.now();
    waitMs = Math.max(waitMs, now - last - 2);
    last = now;
  }, 2);
  const value = await work;
  clearInterval(timer);
  return { waitMs, value };
}

/** What copies of the whole ledger cost: how long recording waits, how fast, how much memory. */
export async function measureCopies(): Promise<readonly Measure[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-bench-copies-'));
  try {
    const file = path.join(folder, 'ledger.sqlite');
    await (await openSeededLedger(file)).ledger.close();
    fillLedger(file, MEGABYTES);
    const megabytes = statSync(file).size / 1e6;
    const ledger = await openLedgerInThread({ path: file });
    await ledger.copies.chooseFolder({ folder: path.join(folder, 'backups') });
    const run = await ledger.recorder.startRun(runStart());
    let tick = 0;
    const recording = setInterval(() => {
      tick += 500;
      void ledger.recorder.appendSupply({ runId: run.id, columns: samples(1, { fromTick: tick }) });
    }, 50);
    let startMs = performance.now();
    const backup = await longestWait(ledger.copies.backUp(null));
    const backupS = (performance.now() - startMs) / 1000;
    // What the same thread waits with nothing but the recording to do, on this machine as it is now.
    const idle = await longestWait(new Promise((resolve) => setTimeout(resolve, 3_000)));
    clearInterval(recording);
    await ledger.close();

    // The same copy in one go, as SQLite offers it: nothing else gets its turn meanwhile.
    const bare = openBare(file);
    startMs = performance.now();
    bare.prepare('vacuum into ?').run(path.join(folder, 'vacuum.sqlite'));
    const vacuumMs = performance.now() - startMs;
    bare.close();
    startMs = performance.now();
    copyFileSync(file, path.join(folder, 'plain.sqlite'));
    createHash('sha256')
      .update(readFileSync(path.join(folder, 'plain.sqlite')))
      .digest('hex');
    const plainS = (performance.now() - startMs) / 1000;

    globalThis.gc?.();
    const before = process.memoryUsage().rss;
    let peak = before;
    const watch = setInterval(() => {
      peak = Math.max(peak, process.memoryUsage().rss);
    }, 20);
    startMs = performance.now();
    await exportLedger({
      snapshot: path.join(folder, 'plain.sqlite'),
      pictures: folder,
      folder: path.join(folder, 'exported'),
      app: 'bench',
      ledgerId: 'bench',
      madeAt: 0,
      tell: () => {},
    });
    const exportS = (performance.now() - startMs) / 1000;
    clearInterval(watch);
    const written = readdirSync(path.join(folder, 'exported', 'tables')).length;
    if (written === 0) throw new Error('nothing was exported');

    const empty = await openLedgerInThread({ path: path.join(folder, 'empty.sqlite') });
    startMs = performance.now();
    const { token } = await empty.copies.plan({ source: path.join(folder, 'exported') });
    const planS = (performance.now() - startMs) / 1000;
    startMs = performance.now();
    const merged = await longestWait(empty.copies.merge({ token }));
    const mergeS = (performance.now() - startMs) / 1000;
    await empty.close();
    return [
      measure('recording waits while a backup is made', backup.waitMs, 'ms', 'under 500', {
        name: 'one copy in one go',
        value: vacuumMs,
      }),
      measure('the same beside recording alone', backup.waitMs, 'ms', 'near 1', {
        name: 'no backup under way',
        value: idle.waitMs,
      }),
      measure(
        'backup, copied and read back',
        megabytes / backupS,
        'MB/s',
        'no slower than a fifth of a plain copy',
        {
          name: 'plain copy and hash',
          value: megabytes / plainS,
        },
      ),
      measure('export to open files', megabytes / exportS, 'MB/s', 'over 5'),
      measure(
        'memory that an export takes',
        (peak - before) / 1e6,
        'MB',
        'flat: far below the ledger',
        {
          name: 'the ledger',
          value: megabytes,
        },
      ),
      measure('an export read and checked', megabytes / planS, 'MB/s', 'over 5'),
      measure('merge into an empty ledger', megabytes / mergeS, 'MB/s', 'over 5'),
      measure('ledger held by that merge', merged.waitMs, 'ms', 'only while nothing is powered'),
    ];
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
