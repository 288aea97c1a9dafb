import { describe, expect, it } from 'vitest';
import { injectionGuard } from '../../../core/guard/injection-guard.ts';
import { readingGuard } from '../../../core/guard/reading-guard.ts';

const settings = injectionGuard({
  ...{ ceilingV: 0.9, mostA: 5, stepA: 1, voltsDecimals: 3, ampsDecimals: 3 },
});
const see = (samples: readonly (readonly [s: number, volts: number, amps: number])[]) => {
  const guard = readingGuard(settings.readings);
  return samples.flatMap(([s, volts, amps]) =>
    guard.see({ tick: s * 10_000, volts, amps, regulation: 'cc', outputOn: true }),
  );
};

describe('injectionGuard', () => {
  it('is off when the app dies, whatever was chosen for waking boards, and knows no stages', () => {
    expect(settings).toMatchObject({ policy: 'off', stages: [] });
    expect(settings.readings.every(({ action }) => action === 'off')).toBe(true);
  });

  it('lets the ceiling itself be, with what a supply is off by, and trips at the first reading above', () => {
    expect(see([[0, 0.905, 1.02]])).toEqual([]);
    expect(see([[0, 0.95, 0.5]])[0]?.text).toMatch(/0\.95 V is above/);
    expect(see([[0, 0.5, 5.4]])[0]?.text).toMatch(/5\.4 A is above the guard's 5\.25 A/);
  });

  it('trips above the limit of its step within half a second, not at one reading on the way down', () => {
    expect(see([[0, 0.5, 1.5]])).toEqual([]);
    const held = [0, 0.2, 0.4, 0.55].map((s) => [s, 0.5, 1.5] as const);
    expect(see(held)[0]?.text).toMatch(/1\.5 A is above the guard's 1\.05 A for 0\.55 s/);
  });

  it('leaves room for a few digits where the ceiling is only a few', () => {
    const tiny = injectionGuard({
      ...{ ceilingV: 0.05, mostA: 0.1, stepA: 0.1, voltsDecimals: 2, ampsDecimals: 2 },
    });
    expect(tiny.readings[0]).toMatchObject({ on: 'volts', aboveV: expect.closeTo(0.08, 9) });
    expect(tiny.readings[1]).toMatchObject({ on: 'amps', aboveA: expect.closeTo(0.13, 9) });
  });
});
