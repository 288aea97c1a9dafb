import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll } from 'vitest';

/** A folder of this test file's own on the real disk, removed when the file is done. */
export function tempFolder(name: string): string {
  const folder = mkdtempSync(path.join(tmpdir(), `wakeline-${name}-`));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
