import type { Quantity } from '../job/job.ts';
import { createOpenLead } from './open-lead.ts';
import type {
  ProbeEvent,
  ProbePhase,
  Refusal,
  TakenReading,
  WatchedReading,
} from './probe-event.ts';
import { isPowerless } from './probe-event.ts';
import { findSettled, toleranceOf } from './settled.ts';

/** Watches a meter for touches of the probe. */
export interface ProbeWatch {
  readonly phase: ProbePhase;
  /** Takes one reading of the meter, in order of time; answers what it changed. */
  push(reading: WatchedReading): readonly ProbeEvent[];
  /** The function that the next point needs; null = any. */
  want(quantity: Quantity | null): void;
  /**
   * Takes the newest reading as it is: a dead rail, an open line, a point that does not settle.
   * Never a resistance on a live board. Empty when there is nothing to take, also because this
   * touch has given its reading.
   */
  force(): readonly ProbeEvent[];
  /** The taken reading turned out to be none: the next touch takes its place. */
  unsay(why: Refusal): readonly ProbeEvent[];
}

export interface WatchSettings {
  /** A touch that begins within this after the probe was lifted replaces the reading before it. */
  readonly replaceMs: number;
  /** Volts at the feed above which resistance is refused. */
  readonly remainV: number;
}

/** A moment of common practice, no source. */
export const USUAL_WATCH: WatchSettings = { replaceMs: 800, remainV: 0.2 };

/** The probe counts as lifted after this many open readings in a row over this time. */
const LIFT_READINGS = 2;
const LIFT_MS = 150;
/** A contact is looked at for this long and no longer: what was before it is another story. */
const LOOK_MS = 8000;
const LOOK_READINGS = 400;
/** Resistance below zero by more than this share of its tolerance means that volts are present. */
const BELOW_ZERO = 2;

/**
 * Makes a watch. It starts as if the probe were still on a point: a first reading is only taken
 * after the lead was seen in the air. The first reading of a contact is thrown away, because the
 * meter averaged air and point into it. What autoranging shows on its way (overload, a reading
 * that belongs to neither range) fills no stretch that agrees.
 */
export function createProbeWatch(settings: WatchSettings = USUAL_WATCH): ProbeWatch {
  const lead = createOpenLead();
  let phase: ProbePhase = 'lift';
  let wanted: Quantity | null = null;
  let quantity: Quantity | null = null;
  let contact: WatchedReading[] = [];
  let newest: WatchedReading | null = null;
  let openSince: { tMs: number; readings: number } | null = null;
  let liftedAtMs = Number.NEGATIVE_INFINITY;
  let refusedFor: Refusal | null = null;
  let hasTaken = false;
  /** The touch that is on now has given its reading. */
  let isSpent = false;
  let replaces = false;
  let fresh = true;

  function whyRefused(reading: WatchedReading): Refusal | null {
    if (wanted !== null && reading.quantity !== wanted) return 'wrong-function';
    if (!isPowerless(reading.quantity)) return null;
    if (reading.outputOn === true) return 'output-on';
    if (reading.feedV !== null && Math.abs(reading.feedV) > settings.remainV) return 'volts-remain';
    const { value, decimals } = reading;
    if (value === null) return null;
    const below = -BELOW_ZERO * toleranceOf(reading.quantity, value, decimals);
    return value < below ? 'volts-remain' : null;
  }

  function refuse(why: Refusal): readonly ProbeEvent[] {
    phase = 'refused';
    if (refusedFor === why) return [];
    refusedFor = why;
    return [{ kind: 'refused', why }];
  }

  function take(reading: WatchedReading): readonly ProbeEvent[] {
    const { value, overload, decimals, tMs } = reading;
    const taken: TakenReading = { quantity: reading.quantity, value, overload, decimals, tMs };
    const kind = replaces && hasTaken ? 'replaced' : 'taken';
    phase = 'lift';
    hasTaken = true;
    isSpent = true;
    replaces = false;
    contact = [];
    return [{ kind, reading: taken }];
  }

  /** An open reading: one may be chatter or a change of range, two mean that the probe was lifted. */
  function onOpen(reading: WatchedReading): readonly ProbeEvent[] {
    openSince ??= { tMs: reading.tMs, readings: 0 };
    openSince.readings += 1;
    contact = [];
    fresh = true;
    const lasts = reading.tMs - openSince.tMs;
    if (phase === 'armed') {
      if (reading.value !== null) lead.learn(reading.value);
      return [];
    }
    if (openSince.readings < LIFT_READINGS || lasts < LIFT_MS) return [];
    // A touch that came to nothing passes on what it was to replace.
    if (phase !== 'settling' || replaces) liftedAtMs = openSince.tMs;
    phase = 'armed';
    isSpent = false;
    refusedFor = null;
    return [{ kind: 'lifted' }, { kind: 'armed' }];
  }

  function onTouch(reading: WatchedReading): readonly ProbeEvent[] {
    openSince = null;
    if (phase === 'lift') return [];
    const events: ProbeEvent[] = [];
    if (phase === 'armed') {
      replaces = hasTaken && reading.tMs - liftedAtMs <= settings.replaceMs;
    }
    const why = whyRefused(reading);
    if (why !== null) {
      contact = [];
      return refuse(why);
    }
    if (phase !== 'settling') {
      phase = 'settling';
      refusedFor = null;
      events.push({ kind: 'settling' });
    }
    if (fresh) {
      fresh = false;
      return events;
    }
    contact.push(reading);
    while (
      contact.length > LOOK_READINGS ||
      (contact[0] !== undefined && reading.tMs - contact[0].tMs > LOOK_MS)
    ) {
      contact.shift();
    }
    const settled = findSettled(contact, reading.quantity);
    return settled === null ? events : [...events, ...take(settled)];
  }

  return {
    get phase() {
      return phase;
    },
    push(reading) {
      newest = reading;
      if (reading.quantity !== quantity) {
        // A turned switch tells nothing of the probe: it must be seen in the air in this function.
        quantity = reading.quantity;
        contact = [];
        openSince = null;
        isSpent = false;
        lead.forget();
        if (phase !== 'refused') phase = 'lift';
      }
      const isOpen = lead.isOpen(reading.quantity, reading.value, reading.overload);
      return isOpen ? onOpen(reading) : onTouch(reading);
    },
    want(next) {
      wanted = next;
      refusedFor = null;
    },
    force() {
      if (newest === null || isSpent || (newest.value === null && !newest.overload)) return [];
      const why = whyRefused(newest);
      if (why !== null) {
        refusedFor = null;
        return refuse(why);
      }
      replaces = false;
      return take(newest);
    },
    unsay(why) {
      hasTaken = false;
      isSpent = false;
      refusedFor = null;
      return refuse(why);
    },
  };
}
