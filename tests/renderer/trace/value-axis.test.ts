import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  ampsDomain,
  LANES,
  niceCeiling,
  steadyAxis,
  tickDecimals,
  voltsDomain,
} from '../../../renderer/trace/value-axis.ts';

describe('the value axes', () => {
  it('always holds what is drawn', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-4, max: 50, noNaN: true }), (max) => {
        const axis = steadyAxis(null, 0, max, 0.01);
        expect(axis.high).toBeGreaterThanOrEqual(max);
        expect(axis.low).toBe(0);
      }),
    );
  });

  it('does not move while values stay between half and all of it', () => {
    const first = steadyAxis(null, 0, 0.8, 0.01);
    expect(steadyAxis(first, 0, 0.5, 0.01)).toEqual(first);
    expect(steadyAxis(first, 0, 0.9, 0.01)).toEqual(first);
  });

  it('grows at once and shrinks when it has become far too tall', () => {
    const first = steadyAxis(null, 0, 0.8, 0.01);
    expect(steadyAxis(first, 0, 1.4, 0.01).high).toBeGreaterThan(1.4);
    expect(steadyAxis(first, 0, 0.1, 0.01).high).toBeLessThan(first.high);
  });

  it('reaches below zero for a back-fed board', () => {
    expect(steadyAxis(null, -0.4, 0.1, 0.01).low).toBeLessThanOrEqual(-0.4);
  });

  it('puts amps into the top lane and volts into the bottom one', () => {
    const axis = { low: 0, high: 1 };
    const share = (value: number, [low, high]: [number, number]) => (high - value) / (high - low);
    expect(share(1, ampsDomain(axis))).toBeCloseTo(0);
    expect(share(0, ampsDomain(axis))).toBeCloseTo(LANES.amps);
    expect(share(1, voltsDomain(axis))).toBeCloseTo(LANES.amps + LANES.gap);
    expect(share(0, voltsDomain(axis))).toBeCloseTo(1);
  });

  it('rounds up to numbers a person can read', () => {
    expect([0.0117, 0.9, 1.01, 19, 21.3].map(niceCeiling)).toEqual([0.012, 1, 1.2, 20, 25]);
  });

  it('shows just enough digits to tell ticks apart', () => {
    expect(tickDecimals([0, 0.5, 1])).toBe(1);
    expect(tickDecimals([0, 0.005, 0.01])).toBe(3);
    expect(tickDecimals([0, 10, 20])).toBe(0);
  });
});
