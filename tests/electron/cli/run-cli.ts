import { execFile } from 'node:child_process';
import path from 'node:path';

const MAIN = path.resolve(import.meta.dirname, '../../../electron/cli/main.ts');

/** Runs the command line as a process of its own, as `npm run cli` does. */
export function runCli(argv: readonly string[]) {
  return new Promise<{ code: number; out: string; err: string }>((resolve) => {
    const child = execFile(process.execPath, [MAIN, ...argv], (error, out, err) => {
      resolve({ code: error === null ? 0 : Number(error.code), out, err });
    });
    child.stdin?.end();
  });
}
