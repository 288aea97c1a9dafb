import { spawn } from 'node:child_process';
import { describe, expect, it } from 'vitest';
import { isAlive } from '../../../electron/runtime/is-alive.ts';

describe('a process', () => {
  it('lives until it has ended', async () => {
    const child = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)']);
    expect(isAlive(child.pid!)).toBe(true);
    const ended = new Promise((resolve) => child.once('exit', resolve));
    child.kill('SIGKILL');
    await ended;
    expect(isAlive(child.pid!)).toBe(false);
  });

  it.skipIf(process.platform !== 'linux')(
    'that has ended and is not asked after by its parent does not live',
    async () => {
      // A shell that never waits for its child, which ends at once.
      const parent = spawn('sh', ['-c', 'sh -c "exit 0" & echo $!; exec sleep 20']);
      const pid = await new Promise<number>((resolve) =>
        parent.stdout.once('data', (piece: Buffer) => resolve(Number(piece.toString()))),
      );
      await expect.poll(() => isAlive(pid), { timeout: 10_000 }).toBe(false);
      parent.kill('SIGKILL');
    },
  );
});
