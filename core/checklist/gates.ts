import type { ChecklistItem } from '../job/job.ts';
import { type Gate, isAtLeast } from './gate.ts';

type Gated = Pick<ChecklistItem, 'id' | 'title' | 'state' | 'gate'>;

/** Items that hold something back and are neither done nor skipped with a reason. */
function openAt<I extends Gated>(items: readonly I[], least: Gate): readonly I[] {
  return items.filter((item) => item.state === 'open' && isAtLeast(item.gate, least));
}

/** Items that hold power back. Empty = power may come on. */
export function openGates<I extends Gated>(items: readonly I[]): readonly I[] {
  return openAt(items, 'power');
}

/** Items that hold ohms, diode and continuity readings back: cells in, capacitors charged. */
export function openBeforeOhms<I extends Gated>(items: readonly I[]): readonly I[] {
  return openAt(items, 'ohms');
}

/** Items that hold the soak back: cleaning and drying come before it. */
export function openBeforeSoak<I extends Gated>(items: readonly I[]): readonly I[] {
  return openAt(items, 'soak');
}

/**
 * Items that hold back closing a job as waking: those marked so, and once a part was fitted what
 * holds power back too, because those points have to be measured again.
 */
export function openBeforeClosing<I extends Gated>(
  items: readonly I[],
  isFitted: boolean,
): readonly I[] {
  return items.filter(
    (item) =>
      item.state === 'open' &&
      (item.gate === 'closing' || (isFitted && isAtLeast(item.gate, 'power'))),
  );
}
