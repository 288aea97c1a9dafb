import type { Part } from '../job/job.ts';
import type { PartRow } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/** Parts lifted and fitted, in the order of the work. */
export function partRows(parts: readonly Part[], clock: ShopClock): PartRow[] {
  return [...parts]
    .sort((a, b) => a.at - b.at)
    .map((part) => ({
      action: part.action,
      designator: part.designator,
      what: [part.kind, part.value].filter((text) => text.trim() !== '').join(', '),
      rail: part.rail,
      found: part.stateFound,
      from: part.from,
      at: clock.dateTime(part.at),
    }));
}
