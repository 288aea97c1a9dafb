import type { ChecklistItem } from '../job/job.ts';
import { formatReading } from '../units/format-reading.ts';
import type { ChecklistPhase, ChecklistRow } from './record-content.ts';
import type { ShopClock } from './record-time.ts';

/** Every caution that steps showed, once, in their order. */
export function shownCautions(items: readonly ChecklistItem[]): string[] {
  return [...new Set(items.flatMap(({ caution }) => (caution === null ? [] : [caution])))];
}

/** The checklist as it was walked, phase by phase in the template's order. */
export function checklistPhases(
  items: readonly ChecklistItem[],
  clock: ShopClock,
): ChecklistPhase[] {
  const cautions = shownCautions(items);
  const phases = new Map<string, ChecklistRow[]>();
  for (const item of items) {
    const rows = phases.get(item.phase) ?? [];
    rows.push({
      title: item.title,
      state: item.state,
      at: item.at === null ? '' : clock.dateTime(item.at),
      by: item.doneBy,
      readings: item.readings.map((reading) =>
        reading.place === ''
          ? formatReading(reading)
          : `${reading.place}: ${formatReading(reading)}`,
      ),
      reason: item.reason,
      caution: item.caution ?? '',
      cautionNumber: item.caution === null ? null : cautions.indexOf(item.caution) + 1,
    });
    phases.set(item.phase, rows);
  }
  return [...phases].map(([phase, rows]) => ({ phase, rows }));
}
