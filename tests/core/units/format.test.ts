import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatPercent, formatQuantity, quantityParts } from '../../../core/units/format.ts';
import { PREFIXES } from '../../../core/units/unit.ts';

/** The text with the no-break space made an ordinary one, to read in a test. */
const shown = (...args: Parameters<typeof formatQuantity>) =>
  formatQuantity(...args).replaceAll('\u00a0', ' ');

describe('formatQuantity', () => {
  it.each([
    [0.231, 3, '231 mA'],
    [0.231, 4, '231.0 mA'],
    [1.25, 3, '1.250 A'],
    [0.99996, 4, '1.0000 A'],
    [0.0000042, 7, '4.2 µA'],
    [12, 2, '12.00 A'],
  ])('shows %d A, %d digits known, as %s', (value, decimals, text) => {
    expect(shown(value, 'A', decimals)).toBe(text);
  });

  it.each([
    [4713, 0, '4.713 kΩ'],
    [0.31, 2, '0.31 Ω'],
    [999.9996, 3, '1.000000 kΩ'],
    [2_200_000, null, '2.2 MΩ'],
    [100, null, '100 Ω'],
    [4700, -2, '4.7 kΩ'],
  ])('shows %d ohms, %s digits known, as %s', (value, decimals, text) => {
    expect(shown(value, 'Ω', decimals)).toBe(text);
  });

  it('never writes a zero that was not measured: a tenth of an amp is not 100 mA', () => {
    expect(shown(0.1, 'A', 1)).toBe('0.1 A');
    expect(shown(0.02, 'V', 2)).toBe('0.02 V');
  });

  it('shows unknown as a dash and overload as words, never as a number', () => {
    for (const unknown of [null, Number.NaN]) {
      expect(formatQuantity(unknown, 'V', 3)).toBe('–');
      expect(quantityParts(unknown, 'V', 3)).toEqual({ number: '–', unit: '' });
    }
    expect(formatQuantity(null, 'Ω', 3, { overload: true })).toBe('over range');
    expect(formatQuantity(9.9e37, 'Ω', 3, { overload: true })).toBe('over range');
    expect(formatQuantity(Infinity, 'Ω', 3)).toBe('over range');
  });

  it('shows a reading below the resolution as zero without a sign', () => {
    expect(shown(-0.0004, 'A', 3)).toBe('0.000 A');
    expect(shown(-0, 'V', 2)).toBe('0.00 V');
  });

  it('uses a real minus sign and, when asked, a plus', () => {
    expect(shown(-0.00015, 'A', 5)).toBe('\u22120.15 mA');
    expect(shown(0.2, 'V', 1, { plus: true })).toBe('+0.2 V');
  });

  it('holds a prefix still when told to, so that a live readout does not jump', () => {
    const at = (value: number) => shown(value, 'A', 3, { prefix: 0 });
    expect([at(0.001), at(0.999), at(1.2)]).toEqual(['0.001 A', '0.999 A', '1.200 A']);
    expect(shown(0.0231, 'V', 4, { prefix: -3 })).toBe('23.1 mV');
  });

  it('keeps computed values to the significant digits asked for', () => {
    expect(shown(0.23123456, 'A', null, { digits: 3 })).toBe('231 mA');
    expect(shown(4.998, 'W', null, { digits: 3 })).toBe('5.00 W');
    expect(shown(4.998, 'W', 1, { digits: 3 })).toBe('5.0 W');
  });

  // SI Brochure, 9th edition (2019): 5.4.3 a space between number and unit; table 7 the prefixes.
  it('puts one unbroken space between number and unit, as the SI Brochure asks', () => {
    expect(formatQuantity(5, 'V', 1)).toBe('5.0\u00a0V');
  });

  it('names the prefixes of the SI Brochure by their powers of ten', () => {
    const table7 = { p: -12, n: -9, µ: -6, m: -3, k: 3, M: 6, G: 9 };
    for (const [symbol, power] of Object.entries(table7)) {
      expect(PREFIXES.find((prefix) => prefix.symbol === symbol)?.power).toBe(power);
    }
  });

  it('always reads back as the value it was given, to the digits that were known', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: -2_000_000, max: 2_000_000 }),
        fc.integer({ min: 0, max: 6 }),
        (steps, decimals) => {
          const value = Number(`${steps}e-${decimals}`);
          const { number, unit } = quantityParts(value, 'V', decimals);
          const power = PREFIXES.find((prefix) => `${prefix.symbol}V` === unit)?.power ?? 0;
          expect(Number(`${number.replace('\u2212', '-')}e${power}`)).toBeCloseTo(value, 9);
          const after = number.split('.')[1]?.length ?? 0;
          expect(after - power).toBeLessThanOrEqual(Math.max(decimals, -power));
        },
      ),
    );
  });
});

describe('formatPercent', () => {
  it('rounds a share to whole per cent and shows unknown as a dash', () => {
    expect(formatPercent(0.584)).toBe('58\u00a0%');
    expect(formatPercent(null)).toBe('–');
    expect(formatPercent(Number.NaN)).toBe('–');
  });
});
