import { describe, expect, it } from 'vitest';
import { shopClock } from '../../../core/record/record-time.ts';

describe('shopClock', () => {
  const leapDay = Date.UTC(2024, 1, 29, 23, 30);

  it('tells the time east and west of UTC, over midnight and half hours', () => {
    const at = (offset: number) => shopClock(offset).dateTime(leapDay).replaceAll('\u00a0', ' ');
    expect(at(0)).toBe('29 Feb 2024, 23:30');
    expect(at(330)).toBe('1 Mar 2024, 05:00');
    expect(at(-570)).toBe('29 Feb 2024, 14:00');
  });

  it('names its zone', () => {
    expect(shopClock(330).zone).toBe('UTC+05:30');
    expect(shopClock(-570).zone).toBe('UTC\u221209:30');
    expect(shopClock(0).zone).toBe('UTC');
  });
});
