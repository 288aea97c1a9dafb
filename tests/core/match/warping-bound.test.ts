import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { envelopeOf, warpingBound } from '../../../core/match/warping-bound.ts';
import { warpingDistance } from '../../../core/match/warping-distance.ts';

describe('envelopeOf and warpingBound', () => {
  it('agree with the worked examples of tslearn-team/tslearn (doc texts of the envelope and LB_Keogh)', () => {
    const envelope = envelopeOf([1, 2, 3, 2, 1], 1);
    expect([...envelope.low]).toEqual([1, 1, 2, 1, 1]);
    expect([...envelope.high]).toEqual([2, 3, 3, 3, 2]);
    expect(warpingBound(envelope, [0, 0, 0, 0, 0])).toBeCloseTo(2.8284271247461903, 12);
  });

  it('agree with test_lb1 of wannesm/dtaidistance, which is not the same both ways round', () => {
    const a = [1, 2, 1, 3];
    const b = [3, 4, 3, 0];
    expect(warpingBound(envelopeOf(b, 1), a)).toBeCloseTo(2.23606797749979, 12);
    expect(warpingBound(envelopeOf(a, 1), b)).toBeCloseTo(2.449489742783178, 12);
  });

  it('are never beyond the warping distance', () => {
    const pair = fc.integer({ min: 1, max: 30 }).chain((length) => {
      const series = fc.array(fc.integer({ min: -9, max: 9 }), {
        minLength: length,
        maxLength: length,
      });
      return fc.tuple(series, series, fc.integer({ min: 0, max: 6 }), fc.constantFrom(0, 0.5, 2));
    });
    fc.assert(
      fc.property(pair, ([a, b, radius, tolerance]) => {
        const bound = warpingBound(envelopeOf(a, radius), b, tolerance);
        const distance = warpingDistance(a, b, { radius, tolerance });
        expect(bound).toBeLessThanOrEqual(distance + 1e-9);
      }),
    );
  });
});
