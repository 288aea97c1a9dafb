import { existsSync, readdirSync, rmSync, statSync, writeFileSync } from 'node:fs';
import path from 'node:path';
import react from '@vitejs/plugin-react';
import { build, type InlineConfig } from 'vite';
import { calls } from '../../core/contract/contract.ts';

const root = path.resolve(import.meta.dirname, '../..');
const out = path.join(root, 'out');
/** Native packages stay outside the bundles; Electron and Node are there already. */
const OUTSIDE = ['electron', /^node:/, 'better-sqlite3', 'serialport', /^@serialport\//];
/** The oldest Electron that must work is 33: its Node is 20, its Chromium 130. */
const NODE_TARGET = 'node20';
const WINDOW_TARGET = 'chrome130';

const shared: InlineConfig = { root, configFile: false, logLevel: 'warn', envDir: false };

function nodeBundle(name: string, entry: string, format: 'cjs' | 'es'): InlineConfig {
  return {
    ...shared,
    ssr: { noExternal: true, external: ['better-sqlite3', 'serialport', 'electron'] },
    build: {
      ssr: true,
      target: NODE_TARGET,
      outDir: out,
      emptyOutDir: false,
      minify: false,
      sourcemap: true,
      rollupOptions: {
        input: { [name]: path.join(root, entry) },
        external: OUTSIDE,
        output: { format, entryFileNames: format === 'cjs' ? '[name].cjs' : '[name].js' },
      },
    },
  };
}

/** One self-contained file each: a sandboxed preload may load nothing else. */
function preloadBundle(name: string): InlineConfig {
  return {
    ...shared,
    define: { __CALL_NAMES__: JSON.stringify(Object.keys(calls)) },
    build: {
      target: WINDOW_TARGET,
      outDir: out,
      emptyOutDir: false,
      minify: false,
      lib: {
        entry: path.join(root, `electron/windows/${name}.ts`),
        formats: ['cjs'],
        fileName: () => `${name}.cjs`,
      },
      rollupOptions: { external: ['electron'] },
    },
  };
}

function windowBundle(): InlineConfig {
  return {
    ...shared,
    root: path.join(root, 'renderer'),
    base: './',
    plugins: [react()],
    build: {
      target: WINDOW_TARGET,
      outDir: path.join(out, 'renderer'),
      emptyOutDir: true,
      modulePreload: { polyfill: false },
      assetsInlineLimit: 0,
      chunkSizeWarningLimit: 2000,
      rollupOptions: {
        input: {
          index: path.join(root, 'renderer/index.html'),
          record: path.join(root, 'renderer/record/index.html'),
          tag: path.join(root, 'renderer/tag/index.html'),
          readout: path.join(root, 'renderer/readout/index.html'),
        },
      },
    },
  };
}

/** Newest change, in ms, of any source under the given folders and files. */
function newestChange(entries: readonly string[]): number {
  let newest = 0;
  for (const entry of entries) {
    if (!existsSync(entry)) continue;
    const about = statSync(entry);
    if (about.isDirectory()) {
      newest = Math.max(
        newest,
        newestChange(readdirSync(entry).map((name) => path.join(entry, name))),
      );
    } else {
      newest = Math.max(newest, about.mtimeMs);
    }
  }
  return newest;
}

/** Builds the app into `out/` unless it is newer than every source. Returns whether it built. */
export async function buildApp(say: (line: string) => void = () => {}): Promise<boolean> {
  const stamp = path.join(out, 'built');
  const sources = ['core', 'electron', 'renderer', 'migrations', 'package-lock.json'].map((name) =>
    path.join(root, name),
  );
  if (existsSync(stamp) && statSync(stamp).mtimeMs > newestChange(sources)) return false;
  say('Building the app');
  // Pieces that are loaded when they are asked for have their hash in their name: old ones would stay.
  rmSync(path.join(out, 'assets'), { recursive: true, force: true });
  // Electron must have heard the app's scheme before it is ready: an ES module is read too late.
  await build(nodeBundle('main', 'electron/main.ts', 'cjs'));
  await build(nodeBundle('ledger-worker', 'electron/ledger/worker.ts', 'es'));
  await build(nodeBundle('aside-worker', 'electron/ledger/copies/aside-worker.ts', 'es'));
  await build(preloadBundle('preload'));
  await build(preloadBundle('record-preload'));
  await build(windowBundle());
  writeFileSync(stamp, '');
  return true;
}
