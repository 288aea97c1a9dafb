import { readFileSync } from 'node:fs';

/**
 * Whether a process lives. One that has ended and that its parent has not asked after yet (Linux: a
 * zombie) does not; one that we may not signal does.
 */
export function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
  } catch (thrown) {
    return (thrown as NodeJS.ErrnoException).code !== 'ESRCH';
  }
  if (process.platform !== 'linux') return true;
  try {
    const stat = readFileSync(`/proc/${pid}/stat`, 'latin1');
    // The state stands behind the name, which may hold brackets itself.
    return !/^[ZX]$/.test(stat[stat.lastIndexOf(')') + 2] ?? '');
  } catch {
    return false;
  }
}
