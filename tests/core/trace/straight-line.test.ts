import { expect, it } from 'vitest';
import { fitLine } from '../../../core/trace/straight-line.ts';
import { NORRIS } from '../../support/strd-series.ts';

it('gives the certified line of NIST StRD Norris', () => {
  const line = fitLine(
    NORRIS.map(([, x]) => x),
    NORRIS.map(([y]) => y),
  );
  expect(Math.abs(line.intercept / -0.262323073774029 - 1)).toBeLessThan(1e-11);
  expect(Math.abs(line.slope / 1.00211681802045 - 1)).toBeLessThan(1e-13);
  expect(Math.abs(line.residualSquares / 26.6173985294224 - 1)).toBeLessThan(1e-8);
  expect(Math.abs(line.explainedSquares / 4255954.13232369 - 1)).toBeLessThan(1e-12);
});

it('weighs points as if they were there that many times', () => {
  const weighed = fitLine([0, 1, 2], [0, 3, 2], [1, 3, 1]);
  const repeated = fitLine([0, 1, 1, 1, 2], [0, 3, 3, 3, 2]);
  expect(weighed.slope).toBeCloseTo(repeated.slope, 12);
  expect(weighed.intercept).toBeCloseTo(repeated.intercept, 12);
});

it('has no slope when every point has the same x', () => {
  expect(fitLine([1, 1, 1], [1, 2, 3])).toMatchObject({ slope: 0, intercept: 2 });
});
