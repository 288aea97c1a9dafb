import { type ChildProcess, spawn } from 'node:child_process';
import { lstat, unlink } from 'node:fs/promises';
import { setTimeout as sleep } from 'node:timers/promises';
import { WakelineError } from '../../core/errors.ts';
import type { ByteDevice } from '../../core/scpi/byte-link.ts';
import { exchange, type PretendHost } from './pretend-host.ts';

const LONGEST_START_MS = 5000;

/**
 * Puts a device on a pseudo-terminal at `link`, made by socat and raw on both sides, so that a
 * client may close and open it again. Throws `port-not-opened` when that cannot be done.
 */
export async function hostOnPty(device: ByteDevice, link: string): Promise<PretendHost> {
  await clearOldLink(link);
  // socat's own pipes carry the bytes: closing them, also by our death, ends it.
  // Commas, colons and quotes are socat's own.
  const safe = link.replaceAll(/[\\:,!"'([{]/g, '\\$&');
  const socat = spawn('socat', [`PTY,link=${safe},raw,echo=0`, 'STDIO'], {
    stdio: ['pipe', 'pipe', 'pipe'],
  });
  let said = '';
  let failed: string | null = null;
  socat.stderr.on('data', (piece: Buffer) => {
    said = (said + piece.toString()).slice(-500);
  });
  socat.once('error', (error) => {
    failed = error.message;
  });
  socat.once('exit', (code) => {
    failed ??= `socat ended with ${code}: ${said.trim()}`;
  });
  socat.stdin.on('error', () => {});
  socat.stdout.on('data', (piece: Buffer) =>
    exchange(device, piece, (bytes) => socat.stdin.write(bytes)),
  );
  const startMs = performance.now();
  while (!(await isLink(link))) {
    if (failed !== null || performance.now() - startMs > LONGEST_START_MS) {
      socat.kill();
      throw notOpened(link, failed ?? 'socat made no pseudo-terminal within 5 s');
    }
    await sleep(10);
  }
  let closing = false;
  const gone = new Promise<string>((resolve) => {
    socat.once('exit', (code, signal) => {
      if (!closing) resolve(`the pseudo-terminal ended (socat, ${signal ?? code})`);
    });
  });
  return {
    where: link,
    gone,
    close() {
      closing = true;
      return end(socat);
    },
  };
}

async function end(socat: ChildProcess): Promise<void> {
  if (socat.exitCode !== null || socat.signalCode !== null) return;
  const ended = new Promise<void>((resolve) => socat.once('exit', () => resolve()));
  socat.kill('SIGTERM');
  await ended;
}

async function isLink(path: string): Promise<boolean> {
  const found = await lstat(path).catch(() => null);
  return found?.isSymbolicLink() ?? false;
}

/** A link left by a killed process is taken away; anything else there is not ours to remove. */
async function clearOldLink(link: string): Promise<void> {
  const found = await lstat(link).catch(() => null);
  if (!found) return;
  if (!found.isSymbolicLink()) throw notOpened(link, 'something that is no link is already there');
  await unlink(link);
}

function notOpened(link: string, why: string): WakelineError {
  const missing = why.includes('ENOENT');
  return new WakelineError({
    code: 'port-not-opened',
    what: missing ? 'socat, which makes pseudo-terminals, is not installed' : why,
    where: link,
    todo: missing
      ? 'On Debian: apt-get install socat.'
      : 'Choose another path in a folder that you may write to.',
  });
}
