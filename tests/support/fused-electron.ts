import { cpSync, linkSync, mkdirSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { FuseV1Options, FuseVersion, flipFuses } from '@electron/fuses';
import { cacheFolder } from '../../electron/runtime/cache-folder.ts';

/** A copy of Electron fused as a package would be. */
export interface FusedElectron {
  readonly path: string;
  remove(): void;
}

/**
 * Copies an Electron's executable and links everything else (on the same disk, so beside the
 * cached one), then sets the fuses of a package: no run-as-node, no Node options, no inspector.
 */
export async function fuseElectron(executable: string): Promise<FusedElectron> {
  const from = path.dirname(executable);
  const folder = mkdtempSync(path.join(cacheFolder(), 'fused-'));
  const link = (relative: string): void => {
    for (const entry of readdirSync(path.join(from, relative), { withFileTypes: true })) {
      const name = path.join(relative, entry.name);
      if (entry.isDirectory()) {
        mkdirSync(path.join(folder, name));
        link(name);
      } else if (path.join(from, name) === executable) {
        cpSync(executable, path.join(folder, name));
      } else {
        linkSync(path.join(from, name), path.join(folder, name));
      }
    }
  };
  try {
    link('');
    const copy = path.join(folder, path.basename(executable));
    await flipFuses(copy, {
      version: FuseVersion.V1,
      [FuseV1Options.RunAsNode]: false,
      [FuseV1Options.EnableNodeOptionsEnvironmentVariable]: false,
      [FuseV1Options.EnableNodeCliInspectArguments]: false,
    });
    return { path: copy, remove: () => rmSync(folder, { recursive: true, force: true }) };
  } catch (thrown) {
    rmSync(folder, { recursive: true, force: true });
    throw thrown;
  }
}
