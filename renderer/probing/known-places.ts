import type { ChecklistItem, JobWhole } from '../../core/job/job.ts';

/** A name that a reading can be given, and the open step that it would settle. */
export interface KnownPlace {
  readonly place: string;
  readonly item: ChecklistItem | null;
}

/** Every place that this job has named: of its steps first, open ones before settled, then of its readings. */
export function knownPlaces(whole: JobWhole | null, quantity: string): readonly KnownPlace[] {
  if (whole === null) return [];
  const found = new Map<string, KnownPlace>();
  const steps = whole.items.filter((item) => item.place !== '' && item.quantity === quantity);
  for (const item of steps) {
    if (item.state === 'open' && !found.has(item.place)) {
      found.set(item.place, { place: item.place, item });
    }
  }
  const rest = [...whole.items, ...whole.readings].map((one) => one.place);
  for (const place of rest) {
    if (place !== '' && !found.has(place)) found.set(place, { place, item: null });
  }
  return [...found.values()];
}
