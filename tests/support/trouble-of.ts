import { type Trouble, WakelineError } from '../../core/errors.ts';

/** What a call is refused with; null when it is not refused by a named failure. */
export function troubleOf(call: () => unknown): Trouble | null {
  try {
    call();
  } catch (error) {
    if (error instanceof WakelineError) return error.trouble;
    throw error;
  }
  return null;
}
