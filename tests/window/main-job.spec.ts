import { execFileSync } from 'node:child_process';
import { mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from '@playwright/test';
import { appFolder } from '../../electron/runtime/ready.ts';

/** The demo is the main job: it fails when the window, the stages, the ledger or the PDF do. */
for (const [seed, how] of [
  [1, []],
  [2, ['--serial']],
] as const) {
  test(`the whole main job, seed ${seed} ${how.join(' ')}`, async () => {
    test.setTimeout(240_000);
    const out = mkdtempSync(path.join(tmpdir(), 'wakeline-demo-'));
    try {
      const said = execFileSync(
        process.execPath,
        [path.join(appFolder, 'tests/demo/demo.ts'), '--out', out, '--seed', String(seed), ...how],
        { encoding: 'utf8' },
      );
      expect(said).toContain('the draw: Running');
      const files = readdirSync(out);
      expect(files).toEqual(expect.arrayContaining(['record.pdf', 'ledger.sqlite']));
      expect(files.filter((name) => name.endsWith('.png')).length).toBeGreaterThanOrEqual(10);
      const text = execFileSync('pdftotext', ['-layout', path.join(out, 'record.pdf'), '-'], {
        encoding: 'utf8',
      });
      for (const word of ['Job 1', 'Running', 'Readings', 'Parts', 'Wakes and runs']) {
        expect(text).toContain(word);
      }
    } finally {
      rmSync(out, { recursive: true, force: true });
    }
  });
}
