import { describe, expect, it } from 'vitest';
import { warpingDistance } from '../../../core/match/warping-distance.ts';

const series = (text: string) => text.split(' ').map(Number);

describe('warpingDistance against the tests of the open-source library wannesm/dtaidistance', () => {
  it('tests/test_dtw.py: root of the sum of squares', () => {
    const distance = warpingDistance(series('0 0 1 2 1 0 1 0 0'), series('0 1 2 0 0 0 0 0 0'));
    expect(distance).toBeCloseTo(Math.SQRT2, 12);
  });

  it('tests/test_penalty.py: a cyclic shift, without and with a penalty a step aside', () => {
    const a = series('0 1 2 1 0 1 2 1 0 1 2 1 0');
    const b = series('2 1 0 1 2 1 0 1 2 1 0 1 2');
    expect(warpingDistance(a, b)).toBeCloseTo(Math.sqrt(10), 12);
    expect(warpingDistance(a, b, { penalty: 1 })).toBeCloseTo(Math.sqrt(14), 12);
  });

  it('tests/test_bugs.py: tiny values', () => {
    const a = series('0 .01 0 .01 0 0 0 .01 .01 .02 0 0');
    const b = series('0 .02 .02 0 0 .01 .01 0 0 0 0');
    expect(warpingDistance(a, b)).toBeCloseTo(0.02, 12);
  });

  it('gives up beyond a limit and not before', () => {
    const a = series('0 0 2 1 1 0 0');
    const b = series('0 1 1 1 0 0 0');
    expect(warpingDistance(a, b)).toBe(1);
    expect(warpingDistance(a, b, { limit: 0.1 })).toBe(Number.POSITIVE_INFINITY);
    expect(warpingDistance(a, b, { limit: 1.1 })).toBe(1);
    expect(warpingDistance(a, b, { limit: 1 })).toBe(1);
  });
});

describe('warpingDistance against the tests of the open-source library tslearn-team/tslearn', () => {
  it('tests/test_metrics.py: equal after warping, unequal lengths, crossed sets', () => {
    expect(warpingDistance([1, 2, 3], [1, 2, 2, 3])).toBe(0);
    expect(warpingDistance([1, 2, 3], [1, 2, 2, 3, 4])).toBe(1);
    expect(warpingDistance([1, 2, 2, 3], [2, 3, 4, 5])).toBeCloseTo(2.44949, 5);
    expect(warpingDistance([1, 2, 3, 4], [1, 2, 3])).toBe(1);
    expect(warpingDistance([1, 2, 3, 4], [2, 3, 4, 5])).toBeCloseTo(Math.SQRT2, 6);
    expect(warpingDistance([1, 2, 2, 3], [1, 2, 3, 4])).toBe(1);
  });
});

describe('warpingDistance', () => {
  it('is plain Euclidean distance when nothing may move', () => {
    // tests/test_ed.py of wannesm/dtaidistance, for the same pair.
    const a = series('0 0 1 2 1 0 1 0 0');
    const b = series('0 1 2 0 0 0 0 0 0');
    expect(warpingDistance(a, b, { radius: 0 })).toBeCloseTo(2.8284271247461903, 12);
  });

  it('is infinite for nothing, and for lengths that the radius cannot bridge', () => {
    expect(warpingDistance([], [1])).toBe(Number.POSITIVE_INFINITY);
    expect(warpingDistance([1, 1, 1], [1], { radius: 1 })).toBe(Number.POSITIVE_INFINITY);
  });

  it('lets differences within the tolerance pass', () => {
    expect(warpingDistance([1, 2, 3], [1.1, 1.9, 3.1], { tolerance: 0.11 })).toBe(0);
    expect(warpingDistance([1], [1.5], { tolerance: 0.1 })).toBeCloseTo(0.4, 12);
  });
});
