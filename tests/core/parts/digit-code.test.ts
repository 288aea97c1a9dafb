import { describe, expect, it } from 'vitest';
import { readDigitCode, writeCapacitorDigits } from '../../../core/parts/digit-code.ts';

describe('readDigitCode on resistors (IEC 60062, seen second-hand)', () => {
  it.each([
    ['220', 22],
    ['103', 10_000],
    ['2491', 2490],
    ['1001', 1000],
    ['000', 0],
  ])('reads %s as %d ohm', (text, ohms) => {
    expect(readDigitCode(text, 'resistor')).toEqual({ value: ohms, letter: '' });
  });

  it('reads nothing from digits that begin with 0: 0603 is a case', () => {
    expect(readDigitCode('0603', 'resistor')).toBeNull();
  });
});

describe('readDigitCode on capacitors (EIA-198, seen second-hand)', () => {
  it.each([
    ['100', 10e-12],
    ['101', 100e-12],
    ['102', 1e-9],
    ['103', 10e-9],
    ['104', 100e-9],
    ['105', 1e-6],
    ['106', 10e-6],
    ['220', 22e-12],
    ['224', 220e-9],
    ['330', 33e-12],
    ['470', 47e-12],
    ['474', 470e-9],
    ['223', 22e-9],
    ['473', 47e-9],
    ['225', 2.2e-6],
    ['108', 0.1e-12],
    ['109', 1e-12],
    ['47', 47e-12],
    ['226', 22e-6],
  ])('reads %s as %d farads', (text, farads) => {
    expect(readDigitCode(text, 'capacitor')?.value).toBeCloseTo(farads, 18);
  });

  it('leaves the tolerance letter', () => {
    expect(readDigitCode('103J', 'capacitor')).toEqual({ value: 10e-9, letter: 'J' });
  });

  it('reads no four digits and no single one', () => {
    expect(readDigitCode('2491', 'capacitor')).toBeNull();
    expect(readDigitCode('5', 'capacitor')).toBeNull();
  });

  it('writes what it reads back, and null where two digits do not hold the value', () => {
    for (const digits of ['226', '104', '470', '101', '475']) {
      const farads = readDigitCode(digits, 'capacitor')?.value ?? 0;
      expect(writeCapacitorDigits(farads)).toBe(digits);
    }
    expect(writeCapacitorDigits(1.234e-9)).toBeNull();
    expect(writeCapacitorDigits(0)).toBeNull();
  });
});
