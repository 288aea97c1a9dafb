import type { JobWhole, Reading } from '../job/job.ts';
import { formatExpected, formatReading } from '../units/format-reading.ts';
import { placeKey, sortedReadings, verdictOf } from './reading-rows.ts';
import type { FoundLine, ReadingPairs } from './record-content.ts';
import type { ShopClock } from './record-time.ts';
import { QUANTITY_WORDS, SOURCE_WORDS } from './record-words.ts';

/**
 * Every reading of a job, the same quantity at the same place in one row: what was found before the
 * first part was lifted or fitted, and since, newest first. Without a change of parts there is one
 * side only.
 */
export function readingPairs(whole: JobWhole, clock: ShopClock): ReadingPairs {
  const changedAt = whole.parts.reduce((first, { at }) => Math.min(first, at), Infinity);
  const groups = new Map<string, Reading[]>();
  for (const reading of sortedReadings(whole)) {
    const key = placeKey(reading);
    groups.set(key, [...(groups.get(key) ?? []), reading]);
  }
  const found = (readings: readonly Reading[]): FoundLine[] =>
    readings.toReversed().map((reading) => ({
      value: formatReading(reading),
      verdict: verdictOf(reading),
      at: clock.dateTime(reading.takenAt),
      from: SOURCE_WORDS[reading.source],
    }));
  const rows = [...groups.values()].map((readings) => {
    const newest = readings.at(-1)!;
    const { expectedLow, expectedHigh, quantity, place } = newest;
    return {
      place,
      measured: QUANTITY_WORDS[quantity],
      expected: formatExpected(expectedLow, expectedHigh, quantity),
      before: found(readings.filter(({ takenAt }) => takenAt < changedAt)),
      since: found(readings.filter(({ takenAt }) => takenAt >= changedAt)),
    };
  });
  return { isChanged: Number.isFinite(changedAt), rows };
}
