import { powerSaveBlocker } from 'electron';
import type { SleepBlocker } from '../attention/keep-awake.ts';

/** A desktop that could put the machine to sleep is reached over its session bus. */
function hasSessionBus(): boolean {
  return /^(unix|tcp|autolaunch):/.test(process.env.DBUS_SESSION_BUS_ADDRESS ?? '');
}

/**
 * What keeps the machine awake. On Linux without a session bus nothing would put it to sleep, so
 * nobody is asked.
 */
export function sleepBlocker(): SleepBlocker {
  if (process.platform !== 'linux' || hasSessionBus()) return powerSaveBlocker;
  return { start: () => 0, stop: () => true };
}
