import { describe, expect, it } from 'vitest';
import type { Hunt, HuntPoint } from '../../../core/shorts/hunt.ts';
import { huntGradient } from '../../../core/shorts/hunt-gradient.ts';

/** One ounce copper, 1 mm wide: 0.4926 mohm a mm (traceOhm at 58 MS/m, 35 um); the short lies at 60 mm. */
const OHM_PER_MM = 1 / (58e6 * 1e-3 * 35e-6) / 1000;
const SHORT_OHM = 0.05;
const voltsAt = (mm: number, amps: number) =>
  amps * (SHORT_OHM + Math.max(0, 60 - mm) * OHM_PER_MM);

let made = 0;
const at = (volts: number, amps: number, decimals: number | null = 6) => {
  made += 1;
  return { id: `r${made}`, volts, decimals, amps, source: 'meter' as const, takenAt: made };
};
const along = (mm: number, currents: readonly number[], contactV = 0): HuntPoint => ({
  ...{ id: `${mm}`, name: `C${mm}`, alongMm: mm, onPicture: null },
  readings: currents.map((amps) => at(voltsAt(mm, amps) + contactV, amps)),
});
const hunt = (points: readonly HuntPoint[], meterSigmaV: number | null = 2e-6): Hunt => ({
  ...{ id: 'h', jobId: 'j', rail: 'MAIN', reference: 'ground at J1', beganAt: 0, runIds: [] },
  ...{ leadOhm: null, leadFrom: 'unknown', mostA: null, ratings: [] },
  ...{ finding: null, concludedAt: null, meterSigmaV, points },
});

describe('huntGradient', () => {
  it('finds the point at the short, the knee in mm, and that doubling doubles', () => {
    const points = [0, 20, 40, 60, 80].map((mm) => along(mm, [0, 1, 2]));
    const { gradient, sigmaFrom } = huntGradient(hunt(points));
    expect(gradient?.nearest.toSorted()).toEqual(['C60', 'C80']);
    expect(gradient?.kneeMm).toBeCloseTo(60, 3);
    expect(gradient?.ranked.every(({ isLinear }) => isLinear)).toBe(true);
    expect(gradient?.ranked[0]?.ohm).toBeCloseTo(SHORT_OHM, 6);
    expect(sigmaFrom).toMatch(/^measured/);
  });

  it('takes contact volts off by the zero-current reading of the same point', () => {
    const points = [along(0, [0, 1], 30e-6), along(60, [0, 1], 90e-6), along(80, [0, 1], -50e-6)];
    expect(huntGradient(hunt(points)).gradient?.nearest.toSorted()).toEqual(['C60', 'C80']);
  });

  it('assumes no better noise than it knows, and says so', () => {
    const points = [along(0, [1]), along(60, [1])];
    const assumed = huntGradient(hunt(points, null));
    expect(assumed.sigmaV).toBeCloseTo(10e-6, 9);
    expect(assumed.gradient?.notes.join(' ')).toMatch(/noise was not measured/);
    // Volts written in millivolts whole: a digit is all that is known.
    const coarse = points.map((point) => ({
      ...point,
      readings: point.readings.map((reading) => ({ ...reading, decimals: 3 })),
    }));
    expect(huntGradient(hunt(coarse, null)).sigmaV).toBeCloseTo(1e-3, 9);
    expect(huntGradient(hunt(coarse, 1e-6)).sigmaV).toBeCloseTo(1e-3 / Math.sqrt(12), 9);
  });

  it('says that a point drifted between two readings of it', () => {
    const first = along(0, [1]);
    const moved = { ...first, readings: [...first.readings, at(voltsAt(0, 1) + 5e-4, 1)] };
    const { gradient } = huntGradient(hunt([moved, along(60, [1])]));
    expect(gradient?.notes.join(' ')).toMatch(/C0 moved by 500\sµV/);
  });

  it('waits for two points at one current, and names those still to be read', () => {
    const found = huntGradient(hunt([along(0, [0, 1]), along(60, [0])]));
    expect(found.gradient).toBeNull();
    expect(found.unread).toEqual(['C60']);
  });
});
