import type { Quantity } from '../job/job.ts';

/** Tells the look of a lead in the air from a touched point. */
export interface OpenLead {
  isOpen(quantity: Quantity, value: number | null, overload: boolean): boolean;
  /** Learns from a reading that was taken with the lead known to be in the air. */
  learn(value: number): void;
  /** Forgets what was learned: another function has another floor. */
  forget(): void;
}

/** Half-width of the open band before anything was learned, and what learning may make of it. */
const FIRST = { volts: 0.02, amps: 1e-3 } as const;
const NARROWEST = { volts: 3e-3, amps: 50e-6 } as const;
const WIDEST = { volts: 0.06, amps: 5e-3 } as const;
const REACH = 6;
const LEARNED_FROM = 5;
const KEPT = 12;

/**
 * On ohms, diode and continuity a lead in the air reads overload. On volts and amps it reads
 * about zero with pickup: a band around zero as wide as six times what the lead in the air was
 * seen to wander, between 3 and 60 mV (50 uA and 5 mA). A dead rail lies in that band too and no
 * meter can tell the two apart; it is taken by force. Common practice, no source.
 */
export function createOpenLead(): OpenLead {
  let seen: number[] = [];

  function band(kind: 'volts' | 'amps'): number {
    if (seen.length < LEARNED_FROM) return FIRST[kind];
    const wander = seen.map(Math.abs).sort((a, b) => a - b)[Math.floor(seen.length / 2)]!;
    return Math.min(WIDEST[kind], Math.max(NARROWEST[kind], REACH * wander));
  }

  return {
    isOpen(quantity, value, overload) {
      if (quantity === 'volts' || quantity === 'amps') {
        return !overload && value !== null && Math.abs(value) <= band(quantity);
      }
      return overload || value === null;
    },
    learn(value) {
      seen.push(value);
      if (seen.length > KEPT) seen.shift();
    },
    forget() {
      seen = [];
    },
  };
}
