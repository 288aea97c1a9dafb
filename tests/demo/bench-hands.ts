import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync } from 'node:fs';
import { createConnection } from 'node:net';
import path from 'node:path';
import { createInterface } from 'node:readline';
import type { Page } from '@playwright/test';
import { appFolder } from '../../electron/runtime/ready.ts';

/** What hands do at the pretend board, whether the window has them or a process of its own. */
export interface BenchHands {
  putBoard(key: string): Promise<void>;
  probe(point: string | null): Promise<void>;
  pressWake(): Promise<void>;
  /** Moves the supply's leads to a net of the board; null = back to its input. */
  clip(point: string | null): Promise<void>;
  replacePart(part: string): Promise<void>;
  close(): Promise<void>;
}

/** The hands on the window's own strip. */
export function handsInWindow(page: Page): BenchHands {
  const strip = page.getByRole('region', { name: 'Pretend bench' });
  return {
    putBoard: async (key) => {
      await strip.getByLabel('Board').selectOption(key);
    },
    probe: async (point) => {
      await strip.getByLabel('Probe at').selectOption(point ?? '');
    },
    pressWake: () => strip.getByRole('button', { name: 'Press its button' }).click(),
    clip: async (point) => {
      await strip.getByLabel('Leads at').selectOption(point ?? '');
    },
    replacePart: async (part) => {
      await strip.getByLabel('Part', { exact: true }).selectOption(part);
      await strip.getByRole('button', { name: 'Replace part' }).click();
    },
    async close() {},
  };
}

/** A pretend bench in a process of its own, on two pseudo-terminals, and its hands on a socket. */
export interface SerialBench extends BenchHands {
  readonly supplyPath: string;
  readonly meterPath: string;
}

const READY_MS = 15_000;

/** Starts the pretend bench outside the app. `folder` takes the links and the hands' socket. */
export async function serialBench(folder: string, seed: number): Promise<SerialBench> {
  const supplyPath = path.join(folder, 'supply');
  const meterPath = path.join(folder, 'meter');
  const socketPath = path.join(folder, 'hands.sock');
  const child: ChildProcess = spawn(
    process.execPath,
    [
      path.join(appFolder, 'electron/cli/main.ts'),
      ...['pretend', '--serial', supplyPath, '--meter-serial', meterPath],
      ...['--hands', socketPath, '--seed', String(seed)],
    ],
    { stdio: ['ignore', 'ignore', 'inherit'] },
  );
  // However the demo ends, nothing of it goes on holding the terminal.
  process.once('exit', () => child.kill('SIGKILL'));
  for (const signal of ['SIGINT', 'SIGTERM'] as const) {
    process.once(signal, () => process.exit(1));
  }
  const endMs = Date.now() + READY_MS;
  while (![supplyPath, meterPath, socketPath].every((one) => existsSync(one))) {
    if (Date.now() > endMs || child.exitCode !== null) {
      throw new Error('the pretend bench did not come up on its pseudo-terminals');
    }
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  const socket = createConnection(socketPath);
  const lines = createInterface({ input: socket })[Symbol.asyncIterator]();
  const ask = async (what: object): Promise<void> => {
    socket.write(`${JSON.stringify(what)}\n`);
    const answer = await lines.next();
    if (/"code"/.test(String(answer.value))) throw new Error(String(answer.value));
  };
  return {
    supplyPath,
    meterPath,
    putBoard: (board) => ask({ do: 'put-board', board }),
    probe: (point) => ask({ do: 'probe', point }),
    pressWake: () => ask({ do: 'press-wake' }),
    clip: (point) => ask({ do: 'clip', point }),
    replacePart: (part) => ask({ do: 'replace-part', part }),
    async close() {
      socket.destroy();
      child.kill('SIGTERM');
    },
  };
}
