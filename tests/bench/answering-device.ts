import { spawn } from 'node:child_process';
import { existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';

const READY_MS = 20_000;

/** The device of `answering-device.py` in a process of its own, and the link to it. */
export async function answeringDevice(): Promise<{ readonly port: string; remove(): void }> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-answering-'));
  const port = path.join(folder, 'instrument');
  const script = path.join(import.meta.dirname, 'answering-device.py');
  const device = spawn('/usr/bin/python3', ['-u', script, port], {
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  const endMs = performance.now() + READY_MS;
  while (!existsSync(port)) {
    if (performance.now() > endMs) throw new Error(`no pseudo-terminal at ${port}`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  return {
    port,
    remove() {
      device.kill();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}
