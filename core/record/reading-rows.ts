import type { JobWhole, Reading } from '../job/job.ts';
import type { ReadingVerdict } from './record-content.ts';

/** A reading against what was expected of it. Over range is above any upper bound. */
export function verdictOf(reading: Reading): ReadingVerdict {
  const { expectedLow: low, expectedHigh: high } = reading;
  if (low === null && high === null) return '–';
  const value = reading.overload ? Infinity : reading.value;
  if (value === null) return '–';
  if (low !== null && value < low) return 'low';
  return high !== null && value > high ? 'high' : 'as expected';
}

/** Every reading of a job once: place by place in order of first touch, each oldest first. */
export function sortedReadings(whole: JobWhole): Reading[] {
  const once = new Map<string, Reading>();
  for (const reading of whole.readings) once.set(reading.id, reading);
  for (const item of whole.items)
    for (const reading of item.readings) once.set(reading.id, reading);
  const inTime = [...once.values()].sort((a, b) => a.takenAt - b.takenAt);
  const places = new Map<string, Map<string, Reading[]>>();
  for (const reading of inTime) {
    const place = reading.place.trim().toLowerCase();
    const group = places.get(place) ?? new Map<string, Reading[]>();
    group.set(reading.quantity, [...(group.get(reading.quantity) ?? []), reading]);
    places.set(place, group);
  }
  return [...places.values()].flatMap((group) => [...group.values()].flat());
}

/** What makes two readings comparable: the same quantity at the same place. */
export function placeKey(reading: Reading): string {
  return `${reading.place.trim().toLowerCase()}\n${reading.quantity}`;
}
