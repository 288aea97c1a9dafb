import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { readyApp } from '../../electron/runtime/ready.ts';

const NO_LEDGER = 'These are not the bytes of a ledger, and they are somebody’s.\n'.repeat(50);
const SAYS_WITHIN_MS = 20_000;

test('a ledger that is none is left alone, and the app says what, where and what to do', async () => {
  const dataFolder = mkdtempSync(path.join(tmpdir(), 'wakeline-bad-'));
  const file = path.join(dataFolder, 'ledger.sqlite');
  writeFileSync(file, NO_LEDGER);
  const ready = await readyApp(() => {});
  const child = spawn(ready.electron.path, [...ready.args, `--user-data-dir=${dataFolder}`], {
    env: { ...process.env, ...ready.env },
    stdio: ['ignore', 'ignore', 'pipe'],
  });
  try {
    let said = '';
    child.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString();
    });
    await expect.poll(() => said, { timeout: SAYS_WITHIN_MS }).toContain(file);
    expect(said).toMatch(/not a .*ledger|no ledger/i);
    expect(readFileSync(file, 'utf8')).toBe(NO_LEDGER);
  } finally {
    const gone = new Promise((ended) => child.once('exit', ended));
    child.kill('SIGKILL');
    await gone;
    rmSync(dataFolder, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
  }
});
