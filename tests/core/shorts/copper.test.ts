import { describe, expect, it } from 'vitest';
import {
  COPPER_RESISTIVITY_OHM_M,
  copperAt,
  parallelOhm,
  thicknessOfOunces,
  traceOhm,
  wireDiameterMm,
  wireOhm,
} from '../../../core/shorts/copper.ts';
import { fourWireOhm, splitPower, twoWireErrorShare } from '../../../core/shorts/kelvin.ts';

describe('copper', () => {
  it('has 1.724137931e-8 ohm m at 20 °C: 58 MS/m (IACS, seen second-hand)', () => {
    expect(COPPER_RESISTIVITY_OHM_M).toBeCloseTo(1.724137931e-8, 17);
  });

  it.each([
    [25, 1.01965],
    [60, 1.1572],
    [100, 1.3144],
  ])(
    'grows with temperature: 1 ohm is at %d °C %d ohm (0.00393 a kelvin, handbook table)',
    (c, ohm) => {
      expect(copperAt(1, c)).toBeCloseTo(ohm, 12);
    },
  );

  // Wire table of a public physics reference, ohm per 1000 ft at 20 °C.
  it.each([
    [10, 0.9989],
    [12, 1.588],
    [14, 2.525],
    [16, 4.016],
    [18, 6.385],
    [20, 10.15],
    [22, 16.14],
    [24, 25.67],
    [26, 40.81],
    [28, 64.9],
    [30, 103.2],
    [36, 414.8],
    [40, 1049],
  ])('gives AWG %d its table value of %d ohm per 1000 ft within 0.1 %%', (awg, ohm) => {
    const found = wireOhm(awg, 304.8);
    expect(Math.abs(found / ohm - 1)).toBeLessThan(1e-3);
  });

  it.each([
    [10, 3.277],
    [20, 33.31],
    [24, 84.2],
    [30, 338.5],
  ])(
    'gives AWG %d its chart value of %d ohm per km within 0.5 %% (seen second-hand)',
    (awg, ohm) => {
      expect(Math.abs(wireOhm(awg, 1000) / ohm - 1)).toBeLessThan(5e-3);
    },
  );

  it.each([
    [10, 2.5882],
    [24, 0.51055],
    [36, 0.127],
  ])('gives AWG %d its diameter of %d mm (ASTM B258, from memory)', (awg, mm) => {
    expect(wireDiameterMm(awg)).toBeCloseTo(mm, 4);
  });

  it('gives a board trace 98.2857 mohm: 100 x 0.5 mm of 35 µm at 1.72e-8 (public lesson)', () => {
    const ohm = traceOhm({ lengthMm: 100, widthMm: 0.5, thicknessMm: 0.035 }, 1.72e-8);
    expect(ohm).toBeCloseTo(0.0982857, 7);
  });

  it.each([
    [0.5, 0.0175],
    [1, 0.035],
    [2, 0.07],
  ])('takes %d oz as %d mm (nominal, same lesson)', (ounces, mm) => {
    expect(thicknessOfOunces(ounces)).toBeCloseTo(mm, 9);
  });

  it.each([
    [34.8, 0.4954],
    [35, 0.4926],
    [36, 0.4789],
  ])('gives a square of %d µm %d mohm (definition, 1.724e-8)', (um, milliohm) => {
    const ohm = traceOhm({ lengthMm: 1, widthMm: 1, thicknessMm: um / 1000 }, 1.724e-8);
    expect(ohm * 1000).toBeCloseTo(milliohm, 4);
  });

  it('gives 5 cm x 0.25 mm of 1 oz about 0.1 ohm, 0.0019 % of 5 kohm (board-trace page)', () => {
    const ohm = traceOhm({ lengthMm: 50, widthMm: 0.25, thicknessMm: 0.0359 });
    expect(ohm).toBeCloseTo(0.096, 3);
    expect((ohm / 5000) * 100).toBeCloseTo(0.0019, 4);
  });

  it('gives 5 in x 4 mil of 3 oz at 38 °C 0.213 ohm within 2 % (published example)', () => {
    const at20 = traceOhm({ lengthMm: 127, widthMm: 0.1016, thicknessMm: 0.105 }, 1.7e-8);
    expect(Math.abs(copperAt(at20, 38 - 5) / 0.213 - 1)).toBeLessThan(0.02);
  });
});

describe('parallelOhm', () => {
  it('gives 625 ohm for 10 k, 2 k and 1 k, 14.4 mA at 9 V (textbook example, from memory)', () => {
    expect(parallelOhm([10_000, 2000, 1000])).toBeCloseTo(625, 9);
    expect(9 / parallelOhm([10_000, 2000, 1000])).toBeCloseTo(0.0144, 12);
  });

  it('gives 13.235294 ohm for 25, 45 and 75 (exercise list)', () => {
    expect(parallelOhm([25, 45, 75])).toBeCloseTo(13.235294, 6);
    expect(parallelOhm([10, 0])).toBe(0);
  });
});

describe('four wires and power', () => {
  it('puts a two-wire reading of 2 ohm 10 % high with 0.2 ohm of leads (published example)', () => {
    expect(twoWireErrorShare(0.2, 2)).toBeCloseTo(0.1, 12);
  });

  it('gives 98.2857 mohm for 98.2857 mV at 1 A (definition)', () => {
    expect(fourWireOhm(0.0982857, 1)).toBe(0.0982857);
  });

  it('heats 98.2857 mohm with 0.393143 W at 2 A (I squared R)', () => {
    expect(splitPower(2 * 0.0982857, 2, 0, null)?.boardW).toBeCloseTo(0.393143, 6);
  });

  it('shares power between leads and board, with volts sensed at the board or without', () => {
    const guessed = splitPower(1, 4, 0.2, null);
    expect(guessed).toMatchObject({ boardOhm: expect.closeTo(0.05, 12) });
    expect(guessed?.boardW).toBeCloseTo(0.8, 12);
    expect(guessed?.leadsW).toBeCloseTo(3.2, 12);
    const sensed = splitPower(1, 4, 99, 0.3);
    expect(sensed?.boardOhm).toBeCloseTo(0.075, 12);
    expect(sensed?.boardShare).toBeCloseTo(0.3, 12);
    expect(splitPower(1, 0, 0.2, null)).toBeNull();
  });

  it('loses 1.4 V at 10 A in 0.14 ohm of leads (common practice, no source)', () => {
    const split = splitPower(12, 10, 0.14, null);
    expect(12 - (split?.boardOhm ?? 0) * 10).toBeCloseTo(1.4, 12);
  });
});
