import type { ChecklistItem } from '../job/job.ts';
import type { ShopClock } from './record-time.ts';

/** Each soak of a job as it was judged: its words carry the minutes, the draw and the bounds. */
export function soakLines(items: readonly ChecklistItem[], clock: ShopClock): string[] {
  return items.flatMap(({ step, state, reason, at }) => {
    if (step !== 'soaked' || (state === 'open' && reason.trim() === '')) return [];
    const when = at === null ? '' : ` (${clock.dateTime(at)})`;
    const words = reason.trim();
    if (state === 'skipped') return [`Left out: ${words}${when}`];
    if (words === '') return [`Done; its numbers were not written down${when}.`];
    return [`${words}${when}`];
  });
}
