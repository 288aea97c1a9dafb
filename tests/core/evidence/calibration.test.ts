import { describe, expect, it } from 'vitest';
import { brierScore, calibrationBins, calibrationGap } from '../../../core/evidence/calibration.ts';

describe('brierScore (Brier 1950, definition)', () => {
  it('is 0 when sure and right, 2 when sure and wrong, and 0.5 for a coin', () => {
    expect(brierScore([{ probabilities: { a: 1, b: 0 }, truth: 'a' }])).toBe(0);
    expect(brierScore([{ probabilities: { a: 1, b: 0 }, truth: 'b' }])).toBe(2);
    expect(brierScore([{ probabilities: { a: 0.5, b: 0.5 }, truth: 'b' }])).toBe(0.5);
  });

  it('counts a truth that was not thought of', () => {
    expect(brierScore([{ probabilities: { a: 1 }, truth: 'z' }])).toBe(2);
  });
});

describe('calibrationBins', () => {
  it('puts what was said beside what came true', () => {
    const said = Array.from({ length: 10 }, (_, i) => ({
      probabilities: { a: 0.85, b: 0.15 },
      truth: i < 8 ? 'a' : 'b',
    }));
    expect(calibrationBins(said)).toEqual([
      { fromP: 0.1, meanP: expect.closeTo(0.15, 12), cameTrue: 0.2, count: 10 },
      { fromP: 0.8, meanP: expect.closeTo(0.85, 12), cameTrue: 0.8, count: 10 },
    ]);
    expect(calibrationGap(said)).toBeCloseTo(0.05, 12);
  });
});
