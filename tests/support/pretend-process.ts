import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { connect } from 'node:net';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { nodePath } from './node-path.ts';

/** The pretend bench in a process of its own. */
export interface PretendProcess {
  readonly folder: string;
  /** The line that it said when ready. */
  readonly ready: string;
  readonly child: ChildProcess;
  /** Sends a request to its hands and gives the answer. */
  hands(request: unknown): Promise<unknown>;
  /** Ends it as a person does; gives its exit code. */
  stop(): Promise<number | null>;
}

const MAIN = resolve(import.meta.dirname, '../../electron/cli/main.ts');

/**
 * Starts the `pretend` verb; `FOLDER` in an argument stands for a fresh folder, where its hands
 * listen too. Rejects with what it said when it ends instead of getting ready.
 */
export async function startPretend(...args: readonly string[]): Promise<PretendProcess> {
  const folder = mkdtempSync(join(tmpdir(), 'wakeline-pretend-'));
  const words = ['pretend', ...args, '--hands', 'FOLDER/hands'].map((word) =>
    word.replace('FOLDER', folder),
  );
  const child = spawn(nodePath, [MAIN, ...words], { stdio: ['ignore', 'pipe', 'pipe'] });
  let said = '';
  child.stderr.on('data', (piece: Buffer) => {
    said += piece.toString();
  });
  const ended = new Promise<number | null>((done) => child.once('exit', (code) => done(code)));
  const ready = await Promise.race([
    new Promise<string>((done) => createInterface({ input: child.stdout }).once('line', done)),
    ended.then((code) => {
      rmSync(folder, { recursive: true, force: true });
      throw new Error(`pretend ended with ${code}: ${said}`);
    }),
  ]);
  return {
    folder,
    ready,
    child,
    hands: (request) =>
      new Promise((done, failed) => {
        const socket = connect(join(folder, 'hands'), () =>
          socket.write(`${JSON.stringify(request)}\n`),
        );
        socket.on('error', failed);
        createInterface({ input: socket }).once('line', (line) => {
          socket.destroy();
          done(JSON.parse(line));
        });
      }),
    async stop() {
      child.kill('SIGTERM');
      const code = await ended;
      rmSync(folder, { recursive: true, force: true });
      return code;
    },
  };
}
