import { describe, expect, it } from 'vitest';
import { sortedReadings, verdictOf } from '../../../core/record/reading-rows.ts';
import { inventedWhole, item, reading, TAKEN_IN } from '../../support/record-job.ts';

describe('verdictOf', () => {
  const judged = (value: number | null, expectedLow: number | null, expectedHigh: number | null) =>
    verdictOf(reading({ value, expectedLow, expectedHigh, overload: value === null }));

  it('judges a reading by the range that was expected, ends included', () => {
    expect(judged(8.4, 8.4, 8.8)).toBe('as expected');
    expect(judged(8.8, 8.4, 8.8)).toBe('as expected');
    expect(judged(8.399, 8.4, 8.8)).toBe('low');
    expect(judged(8.801, 8.4, 8.8)).toBe('high');
  });

  it('takes over range as above any bound: right for "at least", too high for a range', () => {
    expect(judged(null, 10_000, null)).toBe('as expected');
    expect(judged(null, 0.4, 0.7)).toBe('high');
  });

  it('says nothing where nothing was expected or nothing was read', () => {
    expect(judged(8.4, null, null)).toBe('–');
    expect(verdictOf(reading({ value: null, expectedLow: 1 }))).toBe('–');
  });
});

describe('sortedReadings', () => {
  it('takes a reading once that stands both on the job and on its step', () => {
    const once = reading({ place: 'a', value: 1 });
    const whole = { ...inventedWhole, readings: [once], items: [item({ readings: [once] })] };
    expect(sortedReadings(whole)).toEqual([once]);
  });

  it('keeps the readings of one place together, oldest first', () => {
    const at = (place: string, minutes: number) =>
      reading({ place, value: minutes, takenAt: TAKEN_IN + minutes * 60_000 });
    const whole = {
      ...inventedWhole,
      items: [],
      readings: [at('b', 3), at('a', 1), at('B ', 2), at('a', 9)],
    };
    expect(sortedReadings(whole).map((r) => r.value)).toEqual([1, 9, 2, 3]);
  });
});
