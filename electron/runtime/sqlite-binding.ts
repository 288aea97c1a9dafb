import { execFileSync } from 'node:child_process';
import { cpSync, existsSync, mkdtempSync, readFileSync, renameSync, rmSync } from 'node:fs';
import path from 'node:path';
import { WakelineError } from '../../core/errors.ts';
import { cacheFolder } from './cache-folder.ts';
import type { FoundElectron } from './find-electron.ts';
import { layStandInHeaders } from './stand-in-headers.ts';

const modules = path.resolve(import.meta.dirname, '../../node_modules');
/** The Node-API version that the shipped SQLite binary asks for. */
const SHIPPED_NODE_API = 10;
/**
 * The addon uses what Node-API 10 settled; Node 20 has the same functions under its experimental
 * version (2147483647 by its headers).
 */
const EXPERIMENTAL_NODE_API =
  '-UNAPI_VERSION -DNAPI_VERSION=2147483647 -DNAPI_EXPERIMENTAL -DNODE_API_EXPERIMENTAL_NOGC_ENV_OPT_OUT';

/**
 * The SQLite addon to load inside this Electron: null where the shipped one runs, else the path
 * of one built from the same package's source (about a minute, once a machine) for an older
 * Node-API. Node itself always keeps the shipped one. Throws `WakelineError` when it cannot be
 * built.
 */
export function sqliteBindingFor(
  electron: FoundElectron,
  say: (line: string) => void = () => {},
): string | null {
  const nodeApi = Number(
    execFileSync(electron.path, ['-p', 'process.versions.napi'], {
      env: { ...process.env, ELECTRON_RUN_AS_NODE: '1' },
      encoding: 'utf8',
    }).trim(),
  );
  if (nodeApi >= SHIPPED_NODE_API) return null;
  const about = JSON.parse(
    readFileSync(path.join(modules, 'better-sqlite3', 'package.json'), 'utf8'),
  ) as { version: string };
  const kept = path.join(
    cacheFolder(),
    `better-sqlite3-${about.version}-electron-${electron.version}-${process.arch}.node`,
  );
  if (!existsSync(kept)) build(kept, say);
  return kept;
}

function build(kept: string, say: (line: string) => void): void {
  say('Building SQLite for this Electron (about a minute, once)');
  const work = mkdtempSync(path.join(cacheFolder(), 'build-'));
  try {
    const source = path.join(work, 'node_modules', 'better-sqlite3');
    cpSync(path.join(modules, 'better-sqlite3'), source, { recursive: true });
    cpSync(
      path.join(modules, 'node-addon-api'),
      path.join(work, 'node_modules', 'node-addon-api'),
      { recursive: true },
    );
    const headers = layStandInHeaders(path.join(work, 'headers'));
    execFileSync(
      process.execPath,
      [
        path.join(modules, 'node-gyp', 'bin', 'node-gyp.js'),
        'rebuild',
        '--release',
        '--force_build=1',
        `--nodedir=${headers}`,
      ],
      {
        cwd: source,
        env: {
          ...process.env,
          CXXFLAGS: EXPERIMENTAL_NODE_API,
        },
        stdio: ['ignore', 'pipe', 'pipe'],
        maxBuffer: 1 << 28,
      },
    );
    renameSync(path.join(source, 'build', 'Release', 'better_sqlite3.node'), kept);
  } catch (cause) {
    const said = (cause as { stderr?: Buffer }).stderr?.toString().trim().split('\n').slice(-12);
    throw new WakelineError(
      {
        code: 'file-not-written',
        what: `SQLite could not be built for this Electron: ${said?.join(' | ') ?? String(cause)}`,
        where: kept,
        todo: 'Install a C++ compiler, make and python3 (Debian: apt-get install g++ make python3).',
      },
      { cause },
    );
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}
