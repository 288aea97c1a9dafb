import { spawn } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { createInterface } from 'node:readline';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { readWatchNote, watchNoteFile } from '../../../electron/watch/watch-note-file.ts';
import { type GuardedMain, startGuardedMain } from '../../support/guarded-main.ts';
import { type PretendProcess, startPretend } from '../../support/pretend-process.ts';
import { devicePty, hasSocat } from '../../support/pty.ts';
import { msUntilOff, switchings } from '../../support/watch-off.ts';

/** The promise, after the death or the hang of main. */
const WITHIN_MS = 1000;
const undo: (() => unknown)[] = [];
afterEach(async () => {
  for (const one of undo.splice(0).reverse()) await one();
});

async function pretendSupply(): Promise<PretendProcess> {
  const pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
  undo.push(() => pretend.stop());
  return pretend;
}

async function started(address: Parameters<typeof startGuardedMain>[0], folder?: string) {
  const main = await startGuardedMain(address, folder);
  undo.push(() => main.remove());
  undo.push(async () => {
    main.signal('SIGCONT');
    main.signal('SIGKILL');
    await main.ended;
  });
  await main.started;
  return main;
}

async function powered(pretend: PretendProcess): Promise<GuardedMain> {
  const address = { by: 'serial', path: path.join(pretend.folder, 'supply'), baud: 9600 } as const;
  const main = await started(address);
  await main.call('setVolts', { volts: 19, confirmed: true });
  await main.call('outputOn', {});
  expect(await switchings(pretend)).toEqual(['on']);
  return main;
}

const until = async (what: () => boolean | Promise<boolean>, withinMs = 5000) => {
  const endMs = performance.now() + withinMs;
  while (!(await what())) {
    if (performance.now() > endMs) throw new Error(`not within ${withinMs} ms: ${what}`);
    await new Promise((resolve) => setTimeout(resolve, 20));
  }
};

describe.skipIf(!hasSocat())('the watcher of one main that goes on', () => {
  let pretend: PretendProcess;
  let main: GuardedMain;
  beforeAll(async () => {
    pretend = await startPretend('--serial', 'FOLDER/supply', '--board', 'tern-healthy');
    const port = path.join(pretend.folder, 'supply');
    main = await startGuardedMain({ by: 'serial', path: port, baud: 9600 });
    await main.started;
    await main.call('setVolts', { volts: 19, confirmed: true });
  });
  afterAll(async () => {
    main.signal('SIGCONT');
    main.signal('SIGKILL');
    await main.ended;
    main.remove();
    await pretend.stop();
  });

  async function on(): Promise<void> {
    main.alarms.length = 0;
    await until(async () => (await main.call('benchState', {})).supply.outputOn === false);
    await main.call('outputOn', {});
    expect((await switchings(pretend)).at(-1)).toBe('on');
  }

  it('switches off when main is stopped while it holds the port, and main tells it when it goes on', async () => {
    await on();
    await new Promise((resolve) => setTimeout(resolve, 300));
    main.signal('SIGSTOP');
    expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
    main.signal('SIGCONT');
    await until(() => main.alarms.some((alarm) => alarm.code === 'watcher-acted'));
    expect(main.alarms.find(({ code }) => code === 'watcher-acted')!.what).toMatch(/The app hung/);
    await until(async () => (await main.call('benchState', {})).supply.outputOn === false);
  });

  it('switches off when the loop of main is blocked for 2 s', async () => {
    await on();
    await new Promise((resolve) => setTimeout(resolve, 300));
    await main.block(2000);
    expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
    await until(() => main.alarms.some((alarm) => alarm.code === 'watcher-acted'));
  });

  it('is missed when it is killed: main tells, goes off, and starts another', async () => {
    await on();
    await new Promise((resolve) => setTimeout(resolve, 300));
    const before = await main.watcherPid();
    process.kill(before, 'SIGKILL');
    expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
    await until(() => main.alarms.some((alarm) => alarm.code === 'watcher-lost'));
    await until(async () => (await main.watcherPid()) !== before);
    await until(async () => (await main.call('benchState', {})).watcherReady);
  });

  it('is replaced when it is stopped itself', async () => {
    await on();
    const before = await main.watcherPid();
    process.kill(before, 'SIGSTOP');
    expect(await msUntilOff(pretend, 4000)).not.toBeNull();
    await until(async () => (await main.watcherPid()) !== before);
  });

  it('ends with a goodbye and without a note when main ends as it should', async () => {
    await on();
    const watcher = await main.watcherPid();
    expect(await main.quit()).toBe(0);
    expect((await switchings(pretend)).slice(-2)).toEqual(['on', 'off']);
    expect(existsSync(watchNoteFile(main.dataFolder))).toBe(false);
    expect(() => process.kill(watcher, 0)).toThrow();
  });
});

describe.skipIf(!hasSocat())('the watcher, on a pretend supply in a process of its own', () => {
  it('switches off when main is killed, and the next start shows it and marks the run', async () => {
    const pretend = await pretendSupply();
    const main = await powered(pretend);
    // A run that has begun is on disk within half a second.
    await new Promise((resolve) => setTimeout(resolve, 900));
    main.signal('SIGKILL');
    expect(await msUntilOff(pretend, WITHIN_MS)).not.toBeNull();
    await until(() => readWatchNote(watchNoteFile(main.dataFolder))?.isDone === true);
    const note = readWatchNote(watchNoteFile(main.dataFolder))!;
    expect(note.why).toBe('main-died');
    expect(note.supplies[0]!.result).toBe('read-back-off');
    const address = { by: 'serial', path: note.supplies[0]!.name, baud: 9600 } as const;
    const next = await started(address, main.dataFolder);
    const told = next.alarms.find((alarm) => alarm.code === 'watcher-acted');
    expect(told?.what).toMatch(/The app ended while power was on.*read back off/);
    expect(existsSync(watchNoteFile(main.dataFolder))).toBe(false);
    const { report, run } = await next.call('readRun', { id: note.runId! });
    expect(run.kind).toBe('powered');
    const trip = report.marks.find(({ mark }) => mark === 'guard-trip');
    expect(trip?.text).toMatch(/The app ended while power was on/);
    expect((await next.call('benchState', {})).supply.outputOn).toBe(false);
  });

  it('leaves the output as it is when the policy says so', async () => {
    const pretend = await pretendSupply();
    const main = await powered(pretend);
    await main.call('setGuardPolicy', { jobId: null, policy: 'leave' });
    await new Promise((resolve) => setTimeout(resolve, 300));
    main.signal('SIGKILL');
    expect(await msUntilOff(pretend, 1500)).toBeNull();
  });

  it('does not give up while the port is gone', async () => {
    const script = path.resolve(import.meta.dirname, '../../support/dialogue-process.ts');
    const pty = await devicePty([process.execPath, script, 'supply', 'TESTWORKS,SUPPLY,7,1']);
    undo.push(() => pty.remove());
    const main = await started({ by: 'serial', path: pty.path, baud: 115200 });
    await main.call('outputOn', {});
    await pty.pull();
    main.signal('SIGKILL');
    await new Promise((resolve) => setTimeout(resolve, 1500));
    await pty.plugIn();
    // A new process behind the same name: switched off and read back all the same.
    await until(() => readWatchNote(watchNoteFile(main.dataFolder))?.isDone === true);
    const note = readWatchNote(watchNoteFile(main.dataFolder))!;
    expect(note.supplies[0]!.result).toBe('read-back-off');
    expect(note.supplies[0]!.tries).toBeGreaterThan(3);
  });

  it('keeps the 50 ms between messages that a slow supply at 9600 baud needs', async () => {
    const log = path.join(await folder(), 'log');
    const pty = await slowSupply(log);
    const main = await onSlow(pty.path);
    await new Promise((resolve) => setTimeout(resolve, 500));
    const killedAt = Date.now();
    main.signal('SIGKILL');
    await until(() => readFileSync(log, 'utf8').trim().endsWith('off'));
    const offAt = Number(readFileSync(log, 'utf8').trim().split('\n').at(-1)!.split(' ')[0]);
    expect(offAt - killedAt).toBeLessThan(WITHIN_MS);
    await until(() => readWatchNote(watchNoteFile(main.dataFolder))?.isDone === true);
    expect(readWatchNote(watchNoteFile(main.dataFolder))!.supplies[0]!.result).toBe(
      'read-back-off',
    );
  });

  it('ends a stopped main that holds the only connection a supply allows', async () => {
    const script = path.resolve(import.meta.dirname, '../../support/one-client-supply-process.ts');
    const device = spawn(process.execPath, [script], { stdio: ['ignore', 'pipe', 'inherit'] });
    undo.push(() => device.kill());
    const lines: string[] = [];
    createInterface({ input: device.stdout }).on('line', (line) => lines.push(line));
    await until(() => lines.length > 0);
    const main = await started({ by: 'tcp', host: '127.0.0.1', port: Number(lines[0]) });
    await main.call('outputOn', {});
    await new Promise((resolve) => setTimeout(resolve, 300));
    main.signal('SIGSTOP');
    await until(() => lines.some((line) => line.startsWith('off')));
    await until(() => readWatchNote(watchNoteFile(main.dataFolder))?.isDone === true);
    expect(readWatchNote(watchNoteFile(main.dataFolder))!.endedMain).toBe(true);
  });
});

async function folder(): Promise<string> {
  const { mkdtempSync, rmSync } = await import('node:fs');
  const { tmpdir } = await import('node:os');
  const made = mkdtempSync(path.join(tmpdir(), 'wakeline-slow-'));
  undo.push(() => rmSync(made, { recursive: true, force: true }));
  return made;
}

async function slowSupply(log: string) {
  const script = path.resolve(import.meta.dirname, '../../support/slow-supply-process.ts');
  const pty = await devicePty([process.execPath, script, log]);
  undo.push(() => pty.remove());
  return pty;
}

async function onSlow(port: string): Promise<GuardedMain> {
  const address = { by: 'serial', path: port, baud: 9600 } as const;
  const main = await started(address);
  // Finding out its pause takes several tries on a busy machine.
  while ((await main.call('benchState', {})).supply.link !== 'live') {
    await main.call('connect', { role: 'supply', address }).catch(() => {});
  }
  await main.call('outputOn', {});
  return main;
}
