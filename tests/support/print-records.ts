import { spawn } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { build, type InlineConfig } from 'vite';
import type { Trouble } from '../../core/errors.ts';
import { openDisplay } from '../../electron/runtime/display.ts';
import { findElectron } from '../../electron/runtime/find-electron.ts';
import type { PrintRequest } from './record-main.ts';

/** How one printing ended, with what the page said on its console. */
export type PrintAnswer = {
  readonly events: readonly string[];
  readonly preferences: Readonly<Record<string, unknown>>;
  /** Windows still open when all was printed. */
  readonly windowsLeft: number;
} & (
  | { readonly ok: true; readonly value: { readonly path: string; readonly pages: number } }
  | { readonly ok: false; readonly trouble: Trouble }
);

const root = path.resolve(import.meta.dirname, '../..');

/** Prints records with the product's own export in a real Electron; answers in order. */
export async function printRecords(requests: readonly PrintRequest[]): Promise<PrintAnswer[]> {
  const folder = mkdtempSync(path.join(tmpdir(), 'wakeline-print-'));
  await buildPrinter(folder);
  const asked = path.join(folder, 'requests.json');
  const answered = path.join(folder, 'answers.json');
  writeFileSync(asked, JSON.stringify(requests));
  const electron = await findElectron();
  const display = await openDisplay(() => {});
  try {
    await run(
      electron.path,
      [...electron.args, `--user-data-dir=${folder}/user`, `${folder}/main.cjs`],
      {
        ...process.env,
        ...display.env,
        WAKELINE_PRINT_REQUESTS: asked,
        WAKELINE_PRINT_ANSWERS: answered,
      },
    );
    return JSON.parse(readFileSync(answered, 'utf8')) as PrintAnswer[];
  } finally {
    display.close();
    rmSync(folder, { recursive: true, force: true });
  }
}

function run(command: string, args: readonly string[], env: NodeJS.ProcessEnv): Promise<void> {
  return new Promise((resolve, reject) => {
    const child = spawn(command, args, { env, stdio: ['ignore', 'ignore', 'pipe'] });
    let said = '';
    child.stderr.on('data', (bytes: Buffer) => {
      said += bytes.toString();
    });
    child.on('error', reject);
    child.on('exit', (code) => {
      if (code === 0) resolve();
      else reject(new Error(`Electron ended with ${code}: ${said.slice(-2000)}`));
    });
  });
}

async function buildPrinter(out: string): Promise<void> {
  const shared: InlineConfig = { configFile: false, envDir: false, logLevel: 'error' };
  const bundle = (entry: string, fileName: string): InlineConfig => ({
    ...shared,
    root,
    build: {
      target: 'node20',
      outDir: out,
      emptyOutDir: false,
      minify: false,
      ssr: true,
      rollupOptions: {
        input: path.join(root, entry),
        external: ['electron', /^node:/],
        output: { format: 'cjs', entryFileNames: fileName },
      },
    },
  });
  await build(bundle('tests/support/record-main.ts', 'main.cjs'));
  await build(bundle('electron/windows/record-preload.ts', 'record-preload.cjs'));
  await build({
    ...shared,
    root: path.join(root, 'renderer'),
    base: './',
    plugins: [react()],
    build: {
      target: 'chrome130',
      outDir: path.join(out, 'renderer'),
      emptyOutDir: false,
      modulePreload: { polyfill: false },
      assetsInlineLimit: 0,
      rollupOptions: { input: { record: path.join(root, 'renderer/record/index.html') } },
    },
  });
}
