import { describe, expect, it } from 'vitest';
import { wireOhm } from '../../../core/shorts/copper.ts';
import { leadOhmOf } from '../../../core/shorts/lead-ohm.ts';

const samples = (ohm: number, amps = 1, count = 10) =>
  Array.from({ length: count }, (_, i) => ({ volts: ohm * amps * (1 + 0.002 * (i % 3)), amps }));

describe('leadOhmOf', () => {
  it('is volts over amps: two metres of AWG 18, whose wire table says 6.385 ohm per 1000 ft at 20 C', () => {
    const tableOhm = (6.385 / 304.8) * 2;
    expect(wireOhm(18, 2)).toBeCloseTo(tableOhm, 3);
    const { ohm, sigmaOhm } = leadOhmOf(samples(tableOhm));
    expect(ohm).toBeCloseTo(tableOhm, 3);
    expect(sigmaOhm).toBeLessThan(1e-4);
  });

  it.each([
    ['too few readings', samples(0.05, 1, 3), /too few/],
    ['tips that are not together', samples(0.05, 0.01), /flows/],
    ['a board between them', samples(2.1, 0.23), /too much for two leads/],
    [
      'tips that move',
      samples(0.05).map((one, i) => ({ ...one, volts: one.volts * (1 + (i % 2)) })),
      /moves/,
    ],
  ])('refuses %s', (_, given, why) => {
    expect(() => leadOhmOf(given)).toThrow(why);
  });
});
