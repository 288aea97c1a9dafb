import { createHash } from 'node:crypto';
import { tmpdir } from 'node:os';
import path from 'node:path';

/** Longest path that every Unix takes for a socket (macOS: 104 bytes with the end mark). */
const LONGEST_SOCKET_PATH = 100;

/**
 * Where main and its watcher meet: in the data folder; a named pipe on Windows; in the folder for
 * temporary files where the data folder's path is too long for a socket. The same for every start
 * on this data folder, so that an old watcher finds out about a new main.
 */
export function watchSocket(dataFolder: string, platform: NodeJS.Platform): string {
  const hash = createHash('sha256').update(path.resolve(dataFolder)).digest('hex').slice(0, 24);
  if (platform === 'win32') return `\\\\.\\pipe\\wakeline-watch-${hash}`;
  const inFolder = path.join(dataFolder, 'watch.sock');
  if (Buffer.byteLength(inFolder) <= LONGEST_SOCKET_PATH) return inFolder;
  return path.join(tmpdir(), `wakeline-watch-${hash}.sock`);
}
