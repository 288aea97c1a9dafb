import { describe, expect, it } from 'vitest';
import { Cusum, cusumChart, ewmaBand, ewmaChart } from '../../../core/stages/control-chart.ts';

// NIST/SEMATECH e-Handbook of Statistical Methods, 6.3.2.3: twenty group means, two places.
const GROUP_MEANS = [
  324.93, 324.68, 324.73, 324.35, 325.35, 325.23, 324.13, 324.53, 325.23, 324.6, 324.63, 325.15,
  328.33, 327.25, 327.83, 328.5, 326.68, 327.78, 326.88, 328.35,
];
// e-Handbook 6.3.2.4.
const EWMA_DATA = [
  52, 47, 53, 49.3, 50.1, 47, 51, 50.1, 51.2, 50.5, 49.6, 47.6, 49.9, 51.3, 47.8, 51.2, 52.6, 52.4,
  53.6, 52.1,
];

describe('CUSUM on the worked example of the NIST e-Handbook, 6.3.2.3', () => {
  const chart = cusumChart(GROUP_MEANS, 325, 0.3175, 4.1959);

  it('gives the high and the low sums', () => {
    const high = [
      0, 0, 0, 0, 0.0325, 0, 0, 0, 0, 0, 0, 0, 3.0125, 4.945, 7.4575, 10.64, 12.0025, 14.465,
      16.0275, 19.06,
    ];
    const low = [0, 0.0025, 0, 0.3325, 0, 0, 0.5525, 0.705, 0.1575, 0.24, 0.2925];
    chart.forEach((point, i) => {
      expect(point.high).toBeCloseTo(high[i]!, 9);
      expect(point.low).toBeCloseTo(low[i] ?? 0, 9);
    });
  });

  it('signals from sample 14 on, and never on the low side', () => {
    expect(chart.flatMap((p, i) => (p.signal ? [i + 1] : []))).toEqual([
      14, 15, 16, 17, 18, 19, 20,
    ]);
  });

  it('tells that the change began with sample 13', () => {
    const cusum = new Cusum(0.3175, 4.1959);
    const at = GROUP_MEANS.findIndex((x) => cusum.push(x - 325) === 1);
    expect(at + 1 - cusum.highSince + 1).toBe(13);
  });
});

describe('EWMA on the worked example of the NIST e-Handbook, 6.3.2.4', () => {
  it('gives the printed averages', () => {
    const printed = [
      50, 50.6, 49.52, 50.56, 50.18, 50.16, 49.21, 49.75, 49.85, 50.26, 50.33, 50.11, 49.36, 49.52,
      50.05, 49.38, 49.92, 50.73, 51.23, 51.94, 51.99,
    ];
    ewmaChart(EWMA_DATA, 50, 0.3).forEach((value, i) => {
      expect(Math.abs(value - printed[i]!)).toBeLessThan(0.0051);
    });
    expect(ewmaChart(EWMA_DATA, 50, 0.3)[20]).toBeCloseTo(51.988243, 6);
  });

  it('gives the control limits, settled and after 1, 2, 3, 5, 10 and 20 values', () => {
    expect(50 + ewmaBand(2.0539, 0.3)).toBeCloseTo(52.588432, 5);
    const early = [1, 2, 3, 5, 10, 20].map((n) => 50 + ewmaBand(2.0539, 0.3, 3, n));
    [51.8485, 52.2564, 52.4314, 52.5516, 52.5874, 52.5884].forEach((limit, i) => {
      expect(early[i]).toBeCloseTo(limit, 4);
    });
  });
});
