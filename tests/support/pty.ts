import { type ChildProcess, spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

/** A pseudo-terminal made by socat; `pull` is the cable coming out. */
export interface Pty {
  /** The end that the product opens. */
  readonly path: string;
  /** The other end of a crossed pair; the same as `path` for a device process. */
  readonly farPath: string;
  /** Ends socat, as pulling the plug does. Resolves once it is gone. */
  pull(): Promise<void>;
  /** Puts it in again under the same path. */
  plugIn(): Promise<void>;
  /** Ends it and removes its folder. */
  remove(): Promise<void>;
}

const READY_MS = 10_000;

/** Whether a pseudo-terminal can be made here: socat is installed. */
export function hasSocat(): boolean {
  return ['/usr/bin/socat', '/usr/local/bin/socat', '/opt/homebrew/bin/socat'].some(existsSync);
}

/** Puts a device process (its command line) on a pseudo-terminal; it starts anew at each plug-in. */
export function devicePty(command: readonly string[]): Promise<Pty> {
  const folder = mkdtempSync(join(tmpdir(), 'wakeline-pty-'));
  const path = join(folder, 'instrument');
  // Commas and colons are socat's own: the command goes through a shell word.
  const exec = `EXEC:'${command.join(' ').replaceAll(/[:,!]/g, '\\$&')}',pty,raw,echo=0`;
  return startPty(folder, path, path, [`PTY,link=${path},raw,echo=0`, exec]);
}

/** Makes a crossed pair of pseudo-terminals: what one end writes, the other reads. */
export function crossedPty(): Promise<Pty> {
  const folder = mkdtempSync(join(tmpdir(), 'wakeline-pty-'));
  const [near, far] = [join(folder, 'near'), join(folder, 'far')];
  return startPty(folder, near, far, [`pty,raw,echo=0,link=${near}`, `pty,raw,echo=0,link=${far}`]);
}

async function startPty(
  folder: string,
  path: string,
  farPath: string,
  args: string[],
): Promise<Pty> {
  let socat: ChildProcess;
  const plugIn = async () => {
    socat = spawn('socat', args, { stdio: 'ignore' });
    const endMs = Date.now() + READY_MS;
    while (!existsSync(path) || !existsSync(farPath)) {
      if (Date.now() > endMs) throw new Error(`socat made no pseudo-terminal: ${args.join(' ')}`);
      await new Promise((resolve) => setTimeout(resolve, 10));
    }
  };
  const pull = () =>
    new Promise<void>((resolve) => {
      if (socat.exitCode !== null || socat.signalCode !== null) resolve();
      else {
        socat.once('exit', () => resolve());
        socat.kill('SIGTERM');
      }
    });
  await plugIn();
  return {
    path,
    farPath,
    pull,
    plugIn,
    async remove() {
      await pull();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
