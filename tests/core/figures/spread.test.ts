import { describe, expect, it } from 'vitest';
import { saySpread } from '../../../core/figures/say-spread.ts';
import { spreadOf } from '../../../core/figures/spread.ts';

describe('a spread', () => {
  it('has the quartiles of definition 7 of Hyndman and Fan 1996, as worked by hand', () => {
    // Nine numbers: places 2, 4 and 6 counted from nought, so no interpolation.
    expect(spreadOf([9, 1, 2, 3, 4, 5, 6, 7, 8])).toEqual({
      count: 9,
      median: 5,
      low: 3,
      high: 7,
      least: 1,
      most: 9,
    });
    // Four numbers: (n - 1) / 4 = 0.75 of the way from the first to the second.
    expect(spreadOf([1, 2, 4, 8])).toMatchObject({ low: 1.75, median: 3, high: 5 });
    expect(spreadOf([])).toBeNull();
  });

  it('is said with no more than its count allows', () => {
    const hours = (value: number) => `${value} h`;
    const thing = ['diagnosis', 'diagnoses'] as const;
    const say = (values: number[]) => saySpread(spreadOf(values), hours, thing);
    expect(say([])).toBe('No diagnosis in this period.');
    expect(say([3])).toBe('One diagnosis: 3 h.');
    expect(say([9, 2, 4])).toBe('3 diagnoses, from 2 h to 9 h. Too few to say more.');
    expect(say([1, 2, 3, 4, 5])).toBe(
      '3 h in the middle; half of them between 2 h and 4 h. 5 diagnoses.',
    );
  });
});
