import { describe, expect, it } from 'vitest';
import {
  betaBelow,
  betaQuantile,
  betaSummary,
  exactInterval,
  ruleOfSuccession,
  wilsonInterval,
} from '../../../core/evidence/intervals.ts';

describe('wilsonInterval (Newcombe 1998, Statistics in Medicine 17:857, table I, method 3, seen second-hand)', () => {
  it.each([
    [81, 263, 0.2553, 0.3662],
    [15, 148, 0.0624, 0.1605],
    [0, 20, 0, 0.1611],
    [1, 29, 0.0061, 0.1718],
  ])('gives %d of %d', (hits, count, low, high) => {
    const found = wilsonInterval(hits, count);
    expect(Math.abs(found.low - low)).toBeLessThan(5e-5);
    expect(Math.abs(found.high - high)).toBeLessThan(5e-5);
  });

  it.each([
    [0, 10, 0, 0.2775, 5e-5],
    [10, 10, 0.7225, 1, 5e-5],
    [5, 10, 0.236593, 0.763407, 5e-6],
    [20, 60, 0.22729, 0.45943, 5e-6],
    [5, 60, 0.03612, 0.18069, 5e-6],
    [57, 60, 0.863, 0.983, 5e-4],
  ])('gives %d of %d as public test files have it', (hits, count, low, high, within) => {
    const found = wilsonInterval(hits, count);
    expect(Math.abs(found.low - low)).toBeLessThan(within);
    expect(Math.abs(found.high - high)).toBeLessThan(within);
  });

  it('stays inside 0 and 1 at both ends, and is 0 to 1 when nothing was observed', () => {
    expect(wilsonInterval(0, 7).low).toBe(0);
    expect(wilsonInterval(7, 7).high).toBe(1);
    expect(wilsonInterval(0, 0)).toEqual({ low: 0, high: 1 });
  });
});

describe('ruleOfSuccession', () => {
  it('gives 3/5 after 2 heads in 3 (published example)', () => {
    expect(ruleOfSuccession(2, 3)).toBe(0.6);
  });

  it('gives (n+1)/(n+2) after n of n, and 1/2 after nothing (published example)', () => {
    expect(ruleOfSuccession(10, 10)).toBeCloseTo(11 / 12, 12);
    expect(ruleOfSuccession(0, 0)).toBe(0.5);
  });

  it('is the mean of what was seen and a half, weighted n to 2 (published identity)', () => {
    for (const [hits, count] of [
      [7, 10],
      [0, 4],
      [31, 40],
    ] as const) {
      expect(ruleOfSuccession(hits, count)).toBeCloseTo(
        (count * (hits / count) + 2 * 0.5) / (count + 2),
        12,
      );
    }
  });
});

describe('the beta distribution', () => {
  it('gives Beta(8, 4) after 7 of 10 from an even start (definition)', () => {
    const { mean, variance, low, high } = betaSummary(8, 4);
    expect(mean).toBeCloseTo(0.666667, 6);
    expect(variance).toBeCloseTo(0.017094017, 9);
    expect(low).toBeCloseTo(0.390257, 6);
    expect(high).toBeCloseTo(0.890737, 6);
  });

  it('gives Beta(11, 1) after 10 of 10 (definition)', () => {
    const { mean, low, high } = betaSummary(11, 1);
    expect(mean).toBeCloseTo(0.916667, 6);
    expect(low).toBeCloseTo(0.715086, 6);
    expect(high).toBeCloseTo(0.997701, 6);
  });

  it.each([
    [81, 263, 0.2527, 0.3676],
    [15, 148, 0.0578, 0.1617],
    [0, 20, 0, 0.1684],
    [1, 29, 0.0009, 0.1776],
  ])(
    'gives the exact interval of %d of %d (Clopper and Pearson; output of a statistics package, seen second-hand)',
    (hits, count, low, high) => {
      const found = exactInterval(hits, count);
      expect(Math.abs(found.low - low)).toBeLessThan(5e-5);
      expect(Math.abs(found.high - high)).toBeLessThan(5e-5);
    },
  );

  it('is the even distribution for Beta(1, 1), and turns itself round', () => {
    expect(betaBelow(0.3, 1, 1)).toBeCloseTo(0.3, 12);
    expect(betaBelow(0.2, 3, 7) + betaBelow(0.8, 7, 3)).toBeCloseTo(1, 12);
    expect(betaBelow(betaQuantile(0.9, 2.5, 40), 2.5, 40)).toBeCloseTo(0.9, 9);
  });
});
