import { describe, expect, it } from 'vitest';
import {
  CompensatedSum,
  integrateTrace,
  TimeIntegral,
  trapezoid,
} from '../../../core/trace/integrals.ts';

const range = (n: number, f: (i: number) => number) => Array.from({ length: n }, (_, i) => f(i));

function over(times: readonly number[], values: readonly number[]): TimeIntegral {
  const integral = new TimeIntegral();
  values.forEach((value, i) => {
    integral.push(times[i]!, value);
  });
  return integral;
}

describe('the trapezoid rule on the worked examples of numpy.trapezoid', () => {
  it('takes 1, 2, 3 a unit apart as 4, two units apart as 8, and backwards as -8', () => {
    expect(trapezoid([1, 2, 3], [0, 1, 2])).toBe(4);
    expect(trapezoid([1, 2, 3], [4, 6, 8])).toBe(8);
    expect(trapezoid([1, 2, 3], [8, 6, 4])).toBe(-8);
  });

  it('gives x squared over 0 to 1 in 50 points', () => {
    const x = range(50, (i) => i / 49);
    expect(
      trapezoid(
        x.map((v) => v * v),
        x,
      ),
    ).toBeCloseTo(0.33340274885464394, 14);
  });

  it('gives the area of a closed circle of 1000 points', () => {
    const at = range(1000, (i) => (2 * Math.PI * i) / 999);
    expect(Math.abs(trapezoid(at.map(Math.sin), at.map(Math.cos)))).toBeCloseTo(
      3.141571941375841,
      12,
    );
  });
});

describe('quantities over irregular time', () => {
  it('gives 29 J for 0, 10, 10, 4 W at 0, 1, 2, 4 s', () => {
    const watts = over([0, 1, 2, 4], [0, 10, 10, 4]);
    expect(watts.total()).toBeCloseTo(29, 12);
    expect(watts.mean()).toBeCloseTo(29 / 4, 12);
  });

  // Waveform tables of electrical handbooks: RMS of sine, triangle, half-on square, DC plus AC.
  it.each([
    ['a sine of peak 10', (t: number) => 10 * Math.sin(2 * Math.PI * t), 7.0710678],
    ['a triangle of peak 10', (t: number) => 10 * (4 * Math.abs(t - 0.5) - 1), 5.7735027],
    ['3 V and a sine of 1 V', (t: number) => 3 + Math.sin(2 * Math.PI * t), 3.082207],
  ] as const)('gives the handbook RMS of %s', (_name, wave, rms) => {
    const t = range(200_001, (i) => i / 200_000);
    expect(over(t, t.map(wave)).rms()).toBeCloseTo(rms, 6);
  });

  it('gives mean 50 and RMS 70.71 of a square that is half the time at 100', () => {
    const t = [0, 1, 1.0000001, 2];
    const square = over(t, [100, 100, 0, 0]);
    expect(square.mean()).toBeCloseTo(50, 4);
    expect(square.rms()).toBeCloseTo(70.71067811865476, 4);
  });

  it('joins nothing across a gap, and counts its seconds for nothing', () => {
    const integral = over([0, 1], [2, 2]);
    integral.push(101, 2, false);
    integral.push(102, 2);
    expect(integral.total()).toBe(4);
    expect(integral.seconds()).toBe(2);
    expect(integral.mean()).toBe(2);
  });

  it('does not bridge a missing reading', () => {
    expect(over([0, 1, 2, 3], [1, Number.NaN, 1, 1]).total()).toBe(1);
  });

  it('says null before two readings have been joined', () => {
    const integral = over([0], [1]);
    expect([integral.total(), integral.mean(), integral.rms()]).toEqual([null, null, null]);
  });
});

describe('a trace', () => {
  const columns = (ticks: number[], volts: number[], amps: number[]) => ({
    ticks: Float64Array.from(ticks),
    volts: Float64Array.from(volts),
    amps: Float64Array.from(amps),
  });

  it('takes an hour at 12 V and 0.5 A as 0.5 Ah and 6 Wh', () => {
    const n = 3601;
    const trace = columns(
      range(n, (i) => i * 10_000),
      range(n, () => 12),
      range(n, () => 0.5),
    );
    const whole = integrateTrace(trace, 2);
    expect(whole.chargeAh).toBeCloseTo(0.5, 12);
    expect(whole.energyWh).toBeCloseTo(6, 12);
    expect(whole.rmsA).toBeCloseTo(0.5, 12);
    expect(whole.measuredS).toBe(3600);
  });

  it('knows charge but no energy without volts', () => {
    const trace = columns([0, 10_000], [Number.NaN, Number.NaN], [1, 1]);
    expect(integrateTrace(trace, 2)).toMatchObject({ energyWh: null, measuredS: 1 });
    expect(integrateTrace(trace, 2).chargeAh).toBeCloseTo(1 / 3600, 12);
  });

  it('leaves out what lies further apart than the gap', () => {
    const trace = columns([0, 10_000, 60_000, 70_000], [5, 5, 5, 5], [1, 1, 1, 1]);
    expect(integrateTrace(trace, 2).measuredS).toBe(2);
  });
});

it('does not lose small terms beside large ones', () => {
  const sum = new CompensatedSum();
  for (const value of [1, 1e100, 1, -1e100]) sum.add(value);
  expect(sum.value()).toBe(2);
});
