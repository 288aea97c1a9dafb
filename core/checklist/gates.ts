import type { ChecklistItem } from '../job/job.ts';

type Gated = Pick<ChecklistItem, 'id' | 'title' | 'step' | 'state' | 'beforePower'>;

/** Steps without which no ohms or diode reading is taken. */
const BEFORE_OHMS: readonly string[] = ['cells-unplugged', 'capacitors-discharged'];

/**
 * Items that hold power back: those marked so that are neither done nor skipped with a reason.
 * Empty = power may come on.
 */
export function openGates<I extends Gated>(items: readonly I[]): readonly I[] {
  return items.filter((item) => item.beforePower && item.state === 'open');
}

/** Items that hold ohms, diode and continuity readings back: cells in, capacitors charged. */
export function openBeforeOhms<I extends Gated>(items: readonly I[]): readonly I[] {
  return items.filter((item) => BEFORE_OHMS.includes(item.step) && item.state === 'open');
}
