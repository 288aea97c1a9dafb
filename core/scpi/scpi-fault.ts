import { errorText } from './scpi-errors.ts';

/** Why a device did not do what it was told: a SCPI error number, its words, and a detail. */
export interface ScpiFault {
  readonly fault: number;
  readonly words: string;
  readonly detail: string;
}

/** A fault with the standard words of its number. `detail` is what SCPI-1999 lets a device add. */
export function scpiFault(number: number, detail = ''): ScpiFault {
  return { fault: number, words: errorText(number), detail };
}

/** Tells a fault from a value that was read. */
export function isFault(value: unknown): value is ScpiFault {
  return typeof value === 'object' && value !== null && 'fault' in value;
}
