import type { PretendProcess } from './pretend-process.ts';

interface Logged {
  readonly instrument: string;
  readonly command: string;
}

/** What the pretend supply's own log says of its output, in order. */
export async function switchings(pretend: PretendProcess): Promise<readonly string[]> {
  const log = (await pretend.hands({ do: 'log' })) as readonly Logged[];
  return log
    .filter(({ instrument, command }) => instrument === 'supply' && /^:?OUTP\w*\d* /i.test(command))
    .map(({ command }) => (/ (ON|1)$/i.test(command) ? 'on' : 'off'));
}

/**
 * Milliseconds from `startMs` until the supply's own log ends with an OFF, looked at every few milliseconds;
 * null when it does not within `withinMs`.
 */
export async function msUntilOff(
  pretend: PretendProcess,
  withinMs: number,
  startMs = performance.now(),
): Promise<number | null> {
  for (;;) {
    const isOff = (await switchings(pretend)).at(-1) === 'off';
    const tookMs = performance.now() - startMs;
    if (isOff) return tookMs;
    if (tookMs > withinMs) return null;
    await new Promise((resolve) => setTimeout(resolve, 4));
  }
}
