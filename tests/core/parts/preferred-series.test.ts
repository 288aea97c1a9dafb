import { describe, expect, it } from 'vitest';
import {
  coarsestSeries,
  isPreferred,
  nearestPreferred,
  PREFERRED_SERIES,
  SERIES_TOLERANCE_PERCENT,
} from '../../../core/parts/preferred-series.ts';

// IEC 60063, values seen second-hand (a public copy of the standard's table).
const E24 = '10 11 12 13 15 16 18 20 22 24 27 30 33 36 39 43 47 51 56 62 68 75 82 91';
const E48 =
  '100 105 110 115 121 127 133 140 147 154 162 169 178 187 196 205 215 226 237 249 261 274 287 301 ' +
  '316 332 348 365 383 402 422 442 464 487 511 536 562 590 619 649 681 715 750 787 825 866 909 953';
const E96 =
  '100 102 105 107 110 113 115 118 121 124 127 130 133 137 140 143 147 150 154 158 162 165 169 174 ' +
  '178 182 187 191 196 200 205 210 215 221 226 232 237 243 249 255 261 267 274 280 287 294 301 309 ' +
  '316 324 332 340 348 357 365 374 383 392 402 412 422 432 442 453 464 475 487 499 511 523 536 549 ' +
  '562 576 590 604 619 634 649 665 681 698 715 732 750 768 787 806 825 845 866 887 909 931 953 976';

describe('PREFERRED_SERIES (IEC 60063, seen second-hand)', () => {
  it.each([
    ['E6', '10 15 22 33 47 68'],
    ['E12', '10 12 15 18 22 27 33 39 47 56 68 82'],
    ['E24', E24],
    ['E48', E48],
    ['E96', E96],
  ] as const)('holds the published values of %s', (name, values) => {
    expect(PREFERRED_SERIES[name].join(' ')).toBe(values);
  });

  it('leaves the formula in eight places of E24', () => {
    const off = PREFERRED_SERIES.E24.filter(
      (value, i) => value !== Math.round(10 * 10 ** (i / 24)),
    );
    expect(off).toEqual([27, 30, 33, 36, 39, 43, 47, 82]);
  });

  it('leaves the formula in one place of E192: 9.20 where the formula gives 9.19', () => {
    const off = PREFERRED_SERIES.E192.flatMap((value, i) =>
      value === Math.round(100 * 10 ** (i / 192)) ? [] : [[i, value]],
    );
    expect(off).toEqual([[185, 920]]);
    expect(PREFERRED_SERIES.E192).toHaveLength(192);
  });

  it('names the tolerance that each series is meant for', () => {
    expect(Object.values(SERIES_TOLERANCE_PERCENT)).toEqual([20, 10, 5, 2, 1, 0.5]);
  });
});

describe('isPreferred and nearestPreferred', () => {
  it('works in every decade', () => {
    for (const value of [4.7e-12, 47e-9, 0.47, 470, 4.7e6]) {
      expect(isPreferred(value, 'E6')).toBe(true);
    }
    expect(isPreferred(4800, 'E96')).toBe(false);
  });

  it('names the neighbours of a value that is not preferred, across a decade too', () => {
    expect(nearestPreferred(4800, 'E96')).toEqual([4750, 4870]);
    expect(nearestPreferred(9.8, 'E96')).toEqual([9.76, 10]);
    expect(nearestPreferred(95, 'E24')).toEqual([91, 100]);
    expect(nearestPreferred(220, 'E6')).toEqual([220, 220]);
  });

  it('names the coarsest series that holds a value, or none', () => {
    expect(coarsestSeries(4700)).toBe('E6');
    expect(coarsestSeries(6.2e-5)).toBe('E24');
    expect(coarsestSeries(2490)).toBe('E48');
    expect(coarsestSeries(1.01)).toBe('E192');
    expect(coarsestSeries(1.03)).toBeNull();
  });
});
