import type { Regulation } from '../trace/sample.ts';
import type { RegisterCoding } from './supply-dialect.ts';

/** Limits read back 2.5 % low in constant current on a real supply: at the limit from 95 % up. */
const AT_LIMIT = 0.95;
/** Volts this far under their set-point (2 % and 20 mV) are not held any more. */
const UNDER_SET = 0.98;
const UNDER_SET_V = 0.02;

/** What the supply said, and what it was set to. */
export interface RegulationFacts {
  readonly volts: number | null;
  readonly amps: number | null;
  readonly setV: number | null;
  readonly limitA: number | null;
  readonly outputOn: boolean | null;
}

/**
 * Tells regulation from readings alone: limited means at least 95 % of the limit AND volts below
 * their set-point. Null when the facts do not settle it.
 */
export function inferRegulation(facts: RegulationFacts): Regulation | null {
  const { volts, amps, setV, limitA, outputOn } = facts;
  if (outputOn === false) return 'off';
  if (volts === null || amps === null || setV === null || limitA === null) return null;
  const isUnder = volts < setV * UNDER_SET - UNDER_SET_V;
  const isAtLimit = limitA > 0 && amps >= limitA * AT_LIMIT;
  if (isUnder && isAtLimit) return 'cc';
  if (!isUnder && !isAtLimit) return 'cv';
  return null;
}

/**
 * The same where no doubt is left, with wide margins: good enough to learn a register's coding
 * from. Null in every case that is not clear.
 */
export function clearRegulation(facts: RegulationFacts): 'cv' | 'cc' | null {
  const { volts, amps, setV, limitA, outputOn } = facts;
  if (outputOn !== true || volts === null || amps === null) return null;
  if (setV === null || limitA === null || setV < 0.5 || limitA <= 0) return null;
  const isHeld = Math.abs(volts - setV) <= 0.01 * setV + UNDER_SET_V;
  if (isHeld && amps < 0.8 * limitA) return 'cv';
  if (volts < 0.9 * setV && amps >= AT_LIMIT * limitA) return 'cc';
  return null;
}

/** Mode words as supplies print them, with or without quotes. Null = not known. */
export function regulationOfWord(word: string): Regulation | null {
  const upper = word.toUpperCase().replaceAll(/[^A-Z]/g, '');
  if (upper === 'CV') return 'cv';
  if (upper === 'CC') return 'cc';
  if (upper === 'OFF') return 'off';
  if (upper === 'UR' || upper === 'UNREG') return 'unregulated';
  return null;
}

/** Regulation by a register whose coding is known. Both bits at once is a fault: unregulated. */
export function regulationOfRegister(
  register: number,
  coding: RegisterCoding,
  outputOn: boolean | null,
): Regulation | null {
  if (outputOn === false) return 'off';
  const isCv = (register & coding.cvMask) !== 0;
  const isCc = (register & coding.ccMask) !== 0;
  if (isCv && isCc) return 'unregulated';
  if (isCv) return 'cv';
  if (isCc) return 'cc';
  return outputOn === true ? 'unregulated' : 'off';
}
