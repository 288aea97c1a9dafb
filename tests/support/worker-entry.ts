import { mkdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { pathToFileURL } from 'node:url';

/** Packages with a part of their own for each system: found from the project, not bundled. */
const NATIVE = ['better-sqlite3', 'serialport'];
const root = path.resolve(import.meta.dirname, '../..');

/**
 * A script under `electron/` or `tests/` that a worker or a child process can be started with: the
 * .ts file itself where the runtime strips types, else bundled for Electron's older Node. It must
 * lie inside the project so that the native packages are found from it.
 */
export async function runnable(source: string): Promise<URL> {
  const file = path.join(root, source);
  if (process.versions.electron === undefined) return pathToFileURL(file);
  const { build } = await import('vite');
  const outDir = path.join(root, 'out', 'tests', String(process.pid));
  mkdirSync(outDir, { recursive: true });
  process.once('exit', () => rmSync(outDir, { recursive: true, force: true }));
  const name = `${path.basename(source, '.ts')}.mjs`;
  await build({
    root,
    configFile: false,
    envFile: false,
    logLevel: 'error',
    ssr: { noExternal: true, external: NATIVE },
    build: {
      ssr: true,
      target: 'node20',
      outDir,
      emptyOutDir: false,
      minify: false,
      rollupOptions: {
        input: file,
        external: [/^node:/, ...NATIVE],
        output: { format: 'es', entryFileNames: name, codeSplitting: false },
      },
    },
  });
  return pathToFileURL(path.join(outDir, name));
}
