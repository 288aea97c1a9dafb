import { type ChildProcess, spawn } from 'node:child_process';
import { WakelineError } from '../../core/errors.ts';

/** A screen to draw on, and how to give it back. */
export interface Display {
  readonly env: Record<string, string>;
  close(): void;
}

const START_LIMIT_MS = 15_000;

/**
 * The display that is there, or a virtual one of our own on Linux without one (it says so).
 * Throws `WakelineError` when the virtual one does not start.
 */
export async function openDisplay(say: (line: string) => void): Promise<Display> {
  const has = process.env.DISPLAY || process.env.WAYLAND_DISPLAY;
  if (process.platform !== 'linux' || has) return { env: {}, close() {} };
  const server = spawn(
    'Xvfb',
    ['-displayfd', '3', '-screen', '0', '1600x1000x24', '-nolisten', 'tcp'],
    {
      stdio: ['ignore', 'ignore', 'ignore', 'pipe'],
    },
  );
  const number = await displayNumber(server);
  say(`No display found: using a virtual one (:${number}). Nothing will show on a screen.`);
  return { env: { DISPLAY: `:${number}` }, close: () => server.kill() };
}

function displayNumber(server: ChildProcess): Promise<string> {
  return new Promise((resolve, reject) => {
    const fail = (what: string) =>
      reject(
        new WakelineError({
          code: 'not-found',
          what,
          where: 'Xvfb',
          todo: 'Install it (Debian: apt-get install xvfb xauth), or start from a desktop.',
        }),
      );
    const timer = setTimeout(
      () => fail('The virtual display did not start in time'),
      START_LIMIT_MS,
    );
    server.on('error', () => fail('There is no display and no virtual one either'));
    server.stdio[3]?.on('data', (bytes: Buffer) => {
      clearTimeout(timer);
      resolve(bytes.toString().trim());
    });
  });
}
