import { describe, expect, it } from 'vitest';
import { readLetterCode, writeLetterCode } from '../../../core/parts/letter-code.ts';

describe('readLetterCode (IEC 60062, seen second-hand)', () => {
  it.each([
    ['R47', 0.47],
    ['4R7', 4.7],
    ['470R', 470],
    ['4K7', 4700],
    ['47K', 47_000],
    ['47K3', 47_300],
    ['470K', 470_000],
    ['4M7', 4.7e6],
    ['R10', 0.1],
    ['1K0', 1000],
    ['2M2', 2.2e6],
    ['R300', 0.3],
    ['12R0', 12],
    ['5L0', 0.005],
    ['1G0', 1e9],
  ])('reads %s as %d ohm', (text, ohms) => {
    expect(readLetterCode(text, 'resistor')).toEqual({ value: ohms, letter: '' });
  });

  it.each([
    ['10p', 10e-12],
    ['4n7', 4.7e-9],
    ['1u0', 1e-6],
    ['6µ8', 6.8e-6],
  ])('reads %s as %d farads', (text, farads) => {
    expect(readLetterCode(text, 'capacitor')?.value).toBe(farads);
  });

  it('leaves a tolerance letter behind the value', () => {
    expect(readLetterCode('4K7J', 'resistor')).toEqual({ value: 4700, letter: 'J' });
  });

  it.each(['', 'R', '4R7R7', '4X7', '47', 'K'])('reads nothing from "%s"', (text) => {
    expect(readLetterCode(text, 'resistor')).toBeNull();
  });

  it('writes what it reads back', () => {
    for (const ohms of [0.1, 0.47, 1, 4.7, 12, 470, 1000, 4700, 47_000, 47_300, 4.7e6, 1e9]) {
      expect(readLetterCode(writeLetterCode(ohms), 'resistor')?.value).toBe(ohms);
    }
    expect(writeLetterCode(4700)).toBe('4K7');
    expect(writeLetterCode(0.47)).toBe('R47');
    expect(writeLetterCode(1000)).toBe('1K0');
  });
});
