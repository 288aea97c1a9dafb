import { copyFileSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import Database from 'better-sqlite3';
import { createSeededRandom } from '../../core/bench-model/seeded-random.ts';
import { type GuardedMain, startGuardedMain } from '../support/guarded-main.ts';
import { jobFields } from '../support/ledger-samples.ts';
import { startPretend } from '../support/pretend-process.ts';
import { msUntilOff, switchings } from '../support/watch-off.ts';

/** What a kill aims at. */
export const AIMS = [
  'any time',
  'mid-message',
  'busy ledger',
  'migration',
  'before ready',
] as const;
export type Aim = (typeof AIMS)[number];

/** What came of one kill or hang. */
export interface Outcome {
  readonly kind: Aim | 'stopped' | 'blocked';
  /** From the blow to the OFF in the supply's own log; null = it was not off within 3 s. */
  readonly offMs: number | null;
  /** Whether the output had been on at all. */
  readonly wasOn: boolean;
  /** Seconds of the run before the kill that are not in the ledger; null = no run by then. */
  readonly lostS: number | null;
  readonly integrity: string;
}

const WAIT_MS = 3000;
const READY_MS = 30_000;
const OLD_LEDGER = path.resolve(
  import.meta.dirname,
  '../../sample-data/databases/0001_create_ledger.sqlite',
);
const sleep = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/**
 * Kills main so often, at random and aimed, and hangs it so often (stopped, and its loop blocked
 * for 2 s by turns), against one pretend supply in a process of its own.
 */
export async function killAndHang(o: {
  kills: number;
  hangs: number;
  seed: number;
  say: (line: string) => void;
}): Promise<readonly Outcome[]> {
  const random = createSeededRandom(o.seed, 'kills').even;
  const pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-kills-'));
  const address = { by: 'serial', path: path.join(pretend.folder, 'supply'), baud: 9600 } as const;
  const outcomes: Outcome[] = [];
  const note = (outcome: Outcome) => {
    outcomes.push(outcome);
    const { kind, offMs, wasOn, lostS, integrity } = outcome;
    const off = !wasOn ? 'never on' : offMs === null ? 'NOT OFF' : `off in ${offMs.toFixed(0)} ms`;
    const lost = lostS === null ? '' : `, ${lostS.toFixed(2)} s lost`;
    o.say(`${outcomes.length}: ${kind}: ${off}${lost}, ${integrity}`);
  };
  const ons = async () => (await switchings(pretend)).filter((word) => word === 'on').length;

  /** Switches on once the watcher is ready, which takes its time on a busy machine. */
  async function switchOn(main: GuardedMain): Promise<void> {
    const endMs = performance.now() + READY_MS;
    for (;;) {
      while (!(await main.call('benchState', {})).watcherReady && performance.now() < endMs) {
        await sleep(20);
      }
      try {
        await main.call('outputOn', {});
        return;
      } catch (thrown) {
        if (performance.now() > endMs || !/not ready/.test(String(thrown))) throw thrown;
        await sleep(100);
      }
    }
  }

  async function on(main: GuardedMain): Promise<void> {
    await main.started;
    await main.call('setVolts', { volts: 19, confirmed: true });
    await switchOn(main);
  }

  async function kill(aim: Aim): Promise<void> {
    if (aim === 'migration') {
      for (const end of ['', '-wal', '-shm']) {
        rmSync(path.join(dataFolder, `ledger.sqlite${end}`), { force: true });
      }
      copyFileSync(OLD_LEDGER, path.join(dataFolder, 'ledger.sqlite'));
    }
    const onsBefore = await ons();
    const main = await startGuardedMain(address, dataFolder);
    main.started.catch(() => {});
    let isPowered = false;
    if (aim === 'migration') await sleep(100 + random() * 1200);
    else if (aim === 'before ready') {
      await main.starting;
      void main.call('outputOn', {}).catch(() => {});
      await sleep(random() * 400);
    } else {
      await on(main);
      isPowered = true;
      await sleep(aim === 'any time' ? 100 + random() * 2500 : 900);
      if (aim === 'mid-message') {
        for (let i = 0; i < 5; i += 1) {
          void main.call('setVolts', { volts: 18 + i / 10, confirmed: true }).catch(() => {});
        }
        await sleep(random() * 12);
      } else if (aim === 'busy ledger') {
        for (let i = 0; i < 200; i += 1) {
          void main.call('createJob', jobFields()).catch(() => {});
        }
        await sleep(random() * 400);
      }
    }
    const killedAt = Date.now();
    const blowMs = performance.now();
    main.signal('SIGKILL');
    await main.ended;
    // An ON that was on its way may still arrive.
    await sleep(isPowered ? 0 : 50);
    const wasOn = (await ons()) > onsBefore;
    const offMs = wasOn ? await msUntilOff(pretend, WAIT_MS, blowMs) : 0;
    const integrity = integrityOf(path.join(dataFolder, 'ledger.sqlite'));
    let lostS: number | null = null;
    if (isPowered) {
      const next = await startGuardedMain(address, dataFolder);
      await next.started;
      const found = (await next.call('recovered', {})).find(({ run }) => run.kind === 'powered');
      if (found !== undefined) {
        lostS = (killedAt - found.run.startedAt) / 1000 - found.run.durationS;
      }
      await next.quit();
    }
    note({ kind: aim, offMs, wasOn, lostS, integrity });
  }

  async function hang(main: GuardedMain, kind: 'stopped' | 'blocked'): Promise<void> {
    main.alarms.length = 0;
    while ((await main.call('benchState', {})).supply.outputOn !== false) await sleep(20);
    await switchOn(main);
    await sleep(200 + random() * 600);
    const blowMs = performance.now();
    if (kind === 'stopped') main.signal('SIGSTOP');
    else await main.block(2000);
    const offMs = await msUntilOff(pretend, WAIT_MS, blowMs);
    if (kind === 'stopped') main.signal('SIGCONT');
    const endMs = performance.now() + 5000;
    while (!main.alarms.some(({ code }) => code === 'watcher-acted')) {
      if (performance.now() > endMs) throw new Error('main did not tell that it had hung');
      await sleep(20);
    }
    note({ kind, offMs, wasOn: true, lostS: null, integrity: 'ok' });
  }

  try {
    for (let i = 0; i < o.kills; i += 1) {
      // Every other one at any time, those between aimed.
      await kill(i % 2 === 0 ? 'any time' : AIMS[1 + ((i >> 1) % 4)]!);
    }
    if (o.hangs > 0) {
      const main = await startGuardedMain(address, dataFolder);
      await main.started;
      for (let i = 0; i < o.hangs; i += 1) await hang(main, i % 2 === 0 ? 'stopped' : 'blocked');
      await main.quit();
    }
  } finally {
    await pretend.stop();
    rmSync(dataFolder, { recursive: true, force: true });
  }
  return outcomes;
}

/** SQLite's own check of the file as the kill left it. */
function integrityOf(file: string): string {
  try {
    const database = new Database(file);
    try {
      return String(database.pragma('integrity_check', { simple: true }));
    } finally {
      database.close();
    }
  } catch (thrown) {
    return String(thrown);
  }
}
