import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { createInterface } from 'node:readline';
import type { InstrumentAddress } from '../../core/contract/bench-calls.ts';
import type { AnswerOf, ArgsOf } from '../../core/contract/call.ts';
import type { CallName, Calls } from '../../core/contract/contract.ts';
import type { Trouble } from '../../core/errors.ts';
import { runnable } from './worker-entry.ts';

/** What the process said of itself. */
interface Said {
  readonly answer?: unknown;
  readonly trouble?: Trouble;
  readonly alarm?: Trouble;
  readonly starting?: true;
  readonly started?: true;
}

/** The app's main in a process of its own, to be killed and stopped. */
export interface GuardedMain {
  readonly child: ChildProcess;
  readonly dataFolder: string;
  readonly alarms: Trouble[];
  /** Resolves when the ledger is open and nothing else is. */
  readonly starting: Promise<void>;
  /** Resolves when the supply is connected. */
  readonly started: Promise<void>;
  call<N extends CallName>(name: N, args: ArgsOf<Calls[N]>): Promise<AnswerOf<Calls[N]>>;
  /** Blocks its loop for so long. */
  block(ms: number): Promise<void>;
  watcherPid(): Promise<number>;
  /** Ends it as a person does. */
  quit(): Promise<number | null>;
  signal(signal: NodeJS.Signals): void;
  readonly ended: Promise<number | null>;
  remove(): void;
}

/** Starts main on a data folder of its own, or on the one that an earlier one left. */
export async function startGuardedMain(
  address: InstrumentAddress,
  dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-guarded-')),
): Promise<GuardedMain> {
  const [script, worker] = [
    await runnable('tests/support/guarded-process.ts'),
    await runnable('electron/ledger/worker.ts'),
  ];
  const child = spawn(
    process.execPath,
    [script.pathname, dataFolder, JSON.stringify(address), worker.href],
    { stdio: ['pipe', 'pipe', 'pipe'] },
  );
  const alarms: Trouble[] = [];
  const waiting: ((said: Said) => void)[] = [];
  let complaint = '';
  child.stderr.on('data', (piece: Buffer) => {
    complaint = (complaint + piece.toString()).slice(-2000);
  });
  const ended = new Promise<number | null>((done) => child.once('exit', (code) => done(code)));
  child.stdin.on('error', () => {});
  let begin = () => {};
  let open = () => {};
  const starting = new Promise<void>((done) => {
    open = done;
  });
  const started = Promise.race([
    new Promise<void>((done) => {
      begin = done;
    }),
    ended.then((code) => {
      throw new Error(`main ended with ${code}: ${complaint}`);
    }),
  ]);
  started.catch(() => {});
  createInterface({ input: child.stdout }).on('line', (line) => {
    const said = JSON.parse(line) as Said;
    if (said.alarm !== undefined) alarms.push(said.alarm);
    else if (said.started) begin();
    else if (said.starting) open();
    else waiting.shift()?.(said);
  });
  const ask = (line: string) =>
    new Promise<unknown>((done, failed) => {
      waiting.push(({ answer, trouble }) => {
        if (trouble === undefined) done(answer);
        else failed(new Error(`${trouble.code}: ${trouble.what}`));
      });
      child.stdin.write(`${line}\n`);
    });
  return {
    child,
    dataFolder,
    alarms,
    starting,
    started,
    ended,
    call: (name, args) => ask(`call ${name} ${JSON.stringify(args)}`) as never,
    block: async (ms) => {
      await ask(`block ${ms}`);
    },
    watcherPid: async () => (await ask('watcher')) as number,
    async quit() {
      child.stdin.write('quit\n');
      return ended;
    },
    signal: (signal) => {
      child.kill(signal);
    },
    remove: () => rmSync(dataFolder, { recursive: true, force: true }),
  };
}
