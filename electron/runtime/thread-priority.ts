import { constants, setPriority } from 'node:os';

/** On Unix a nice value below 0 needs a right that most accounts do not have. */
const FIRST_NICE = -10;
const LATER_NICE = 10;
const DRAWING_NICE = 3;

/**
 * Puts the calling thread (Linux), or this process, before others where the account may: readings
 * and the guard live in main's loop, and a busy machine must not make them wait. Without the right
 * nothing changes.
 */
export function goFirst(): void {
  const wanted =
    process.platform === 'win32' ? constants.priority.PRIORITY_ABOVE_NORMAL : FIRST_NICE;
  tryPriority(0, wanted);
}

/**
 * Lets main go before the calling thread. Only Linux has a priority for each thread; elsewhere it
 * would hold back the whole process, and nothing is done.
 */
export function goLater(): void {
  if (process.platform === 'linux') tryPriority(0, LATER_NICE);
}

/** Lets main go before the process that draws a window. */
export function letDrawLater(pid: number): void {
  if (pid > 0 && process.platform !== 'win32') tryPriority(pid, DRAWING_NICE);
}

function tryPriority(pid: number, priority: number): void {
  try {
    setPriority(pid, priority);
  } catch {
    // No right to: everything works, with more waiting on a busy machine.
  }
}
