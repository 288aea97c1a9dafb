import { describe, expect, it } from 'vitest';
import {
  lagOneCorrelation,
  meanOf,
  medianOf,
  RunningMoments,
  rmsOf,
  sdOf,
  sigmaFromDifferences,
} from '../../../core/trace/statistics.ts';
import { NILE } from '../../support/change-point-series.ts';
import { LEW, LOTTERY, MAVRO, MICHELSO } from '../../support/strd-series.ts';

const alternating = (first: number, low: number, high: number) => [
  first,
  ...Array.from({ length: 1000 }, (_, i) => (i % 2 === 0 ? low : high)),
];

/** Largest relative error that counts as equal. */
function expectWithin(found: number, certified: number, relative: number) {
  expect(Math.abs(found / certified - 1)).toBeLessThan(relative);
}

describe('statistics against the certified values of NIST StRD', () => {
  it.each([
    ['Lew', LEW, -177.435, 277.332168044316, -0.307304800605679],
    ['Lottery', LOTTERY, 518.95871559633, 291.699727470969, -0.120948622967393],
    ['Mavro', MAVRO, 2.001856, 0.000429123454003053, 0.937989183438248],
    ['Michelso', MICHELSO, 299.8524, 0.0790105478190518, 0.535199668621283],
  ] as const)('%s: mean, deviation and lag-1 correlation', (_name, values, mean, sd, lag) => {
    expectWithin(meanOf(values), mean, 1e-14);
    expectWithin(sdOf(values), sd, 1e-12);
    expectWithin(lagOneCorrelation(values), lag, 1e-11);
    const moments = new RunningMoments();
    for (const value of values) moments.push(value);
    expectWithin(moments.mean, mean, 1e-13);
    expectWithin(moments.sd(), sd, 1e-9);
  });

  it('NumAcc1 is exact', () => {
    const values = [10000001, 10000003, 10000002];
    expect([meanOf(values), sdOf(values), lagOneCorrelation(values)]).toEqual([10000002, 1, -0.5]);
  });

  it('NumAcc2 keeps 14 digits', () => {
    const values = alternating(1.2, 1.1, 1.3);
    expectWithin(meanOf(values), 1.2, 1e-14);
    expectWithin(sdOf(values), 0.1, 1e-13);
    expectWithin(lagOneCorrelation(values), -0.999, 1e-13);
  });

  it('NumAcc3 and NumAcc4 give the exact deviation of the doubles nearest to their data', () => {
    expectWithin(sdOf(alternating(1000000.2, 1000000.1, 1000000.3)), 0.1000000000349246, 1e-11);
    expectWithin(sdOf(alternating(10000000.2, 10000000.1, 10000000.3)), 0.10000000055879354, 1e-11);
  });

  it('the running moments keep NumAcc4, where sums of squares give a variance of -2', () => {
    const moments = new RunningMoments();
    for (const value of alternating(10000000.2, 10000000.1, 10000000.3)) moments.push(value);
    expectWithin(moments.sd(), 0.10000000055890503, 1e-8);
  });
});

describe('robust noise', () => {
  it('finds the published sigma of the Nile series from its first differences', () => {
    expect(sigmaFromDifferences(NILE)).toBeCloseTo(115.319389, 5);
  });

  it('is not moved by one step', () => {
    const noise = [0.1, -0.1, 0.12, -0.08, 0.11, -0.1, 0.09, -0.12, 0.1, -0.1];
    const stepped = [...noise, ...noise.map((x) => x + 50)];
    expect(sigmaFromDifferences(stepped)).toBeLessThan(0.3);
  });
});

it('takes the mean of the two middle values of an even count', () => {
  expect(medianOf([4, 1, 3, 2])).toBe(2.5);
  expect(medianOf([3, 1, 2])).toBe(2);
});

it('gives the RMS of one sampled period of a sine exactly', () => {
  const period = Array.from({ length: 1000 }, (_, i) => 10 * Math.sin((2 * Math.PI * i) / 1000));
  expectWithin(rmsOf(period), 7.0710678118654755, 1e-12);
});

it('says NaN of nothing and zero spread of one value', () => {
  expect(meanOf([])).toBeNaN();
  expect(medianOf([])).toBeNaN();
  expect(new RunningMoments().sd()).toBe(0);
});
