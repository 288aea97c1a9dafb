import { describe, expect, it } from 'vitest';
import { meterNoise } from '../../../core/shorts/meter-noise.ts';
import { seeded } from '../rails/random-board.ts';

/** Normal numbers from even ones (Box and Muller 1958). */
function normals(seed: number, count: number): number[] {
  const random = seeded(seed);
  return Array.from(
    { length: count },
    () => Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random()),
  );
}

describe('meterNoise', () => {
  it('finds the standard deviation that made the readings', () => {
    const found = normals(1, 400).map((z) => 0.5 + 15e-6 * z);
    expect(meterNoise(found)).toBeGreaterThan(13e-6);
    expect(meterNoise(found)).toBeLessThan(17e-6);
  });

  it('is not swelled by a short that warms and drifts', () => {
    const drifting = normals(2, 400).map((z, i) => 0.5 + i * 2e-6 + 15e-6 * z);
    expect(meterNoise(drifting)).toBeLessThan(17e-6);
  });

  it('refuses too few readings and a probe that slipped', () => {
    expect(() => meterNoise([1e-3, 1e-3])).toThrow(/too few/);
    const slipped = Array.from({ length: 12 }, (_, i) => (i === 6 ? 0.1 : 0.5));
    expect(() => meterNoise(slipped)).toThrow(/slipped/);
  });
});
