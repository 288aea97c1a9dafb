import { readdirSync, realpathSync } from 'node:fs';
import path from 'node:path';

/** Where Linux keeps names of serial ports that outlive a re-plug: by device, then by socket. */
const LASTING = ['/dev/serial/by-id', '/dev/serial/by-path'];

/**
 * Other names of the serial port at `port`: what it links to, and the lasting names that link to
 * the same. Empty where there are none (other systems name a port for good).
 */
export function otherPortNames(port: string, folders: readonly string[] = LASTING): string[] {
  const real = realOf(port);
  if (real === null) return [];
  const names = folders.flatMap((folder) => listed(folder).map((name) => path.join(folder, name)));
  const same = names.filter((name) => realOf(name) === real);
  return [...new Set([...same, real])].filter((name) => name !== port);
}

function realOf(name: string): string | null {
  try {
    return realpathSync(name);
  } catch {
    return null;
  }
}

function listed(folder: string): readonly string[] {
  try {
    return readdirSync(folder);
  } catch {
    return [];
  }
}
