import { describe, expect, it } from 'vitest';
import {
  percentTolerance,
  sayTolerance,
  toleranceBand,
  toleranceOfLetter,
} from '../../../core/parts/tolerance-letters.ts';

describe('toleranceOfLetter (IEC 60062 and the EIA lists, seen second-hand)', () => {
  it.each([
    ['F', 1],
    ['G', 2],
    ['H', 3],
    ['J', 5],
    ['K', 10],
    ['M', 20],
  ])('takes %s on a capacitor as %d per cent', (letter, percent) => {
    expect(toleranceOfLetter(letter, 'capacitor', 1e-7)).toEqual(percentTolerance(percent));
  });

  it('takes Z on a capacitor as +80/-20 per cent, and as nothing on a resistor', () => {
    expect(toleranceOfLetter('Z', 'capacitor', 1e-7)).toEqual({
      low: -20,
      high: 80,
      in: 'percent',
    });
    expect(toleranceOfLetter('Z', 'resistor', 100)).toBeNull();
  });

  it.each([
    ['B', 0.1],
    ['C', 0.25],
    ['D', 0.5],
  ])('takes %s as %d pF below 10 pF and as per cent above', (letter, figure) => {
    const small = toleranceOfLetter(letter, 'capacitor', 4.7e-12);
    expect(small).toMatchObject({ high: figure * 1e-12, in: 'farads' });
    expect(toleranceOfLetter(letter, 'capacitor', 47e-12)).toEqual(percentTolerance(figure));
  });

  it.each([
    ['B', 0.1],
    ['C', 0.25],
    ['D', 0.5],
    ['F', 1],
    ['G', 2],
    ['J', 5],
    ['K', 10],
    ['M', 20],
  ])('takes %s on a resistor as %d per cent', (letter, percent) => {
    expect(toleranceOfLetter(letter, 'resistor', 5)).toEqual(percentTolerance(percent));
  });
});

describe('toleranceBand and sayTolerance', () => {
  it('gives the lowest and highest value allowed', () => {
    expect(toleranceBand(100, percentTolerance(5))).toEqual([95, 105]);
    const quarter = { low: -0.25e-12, high: 0.25e-12, in: 'farads' } as const;
    expect(toleranceBand(4e-12, quarter)).toEqual([3.75e-12, 4.25e-12]);
  });

  it('says them as the trade does', () => {
    expect(sayTolerance(percentTolerance(10))).toBe('±10 %');
    expect(sayTolerance({ low: -20, high: 80, in: 'percent' })).toBe('+80/−20 %');
    expect(sayTolerance({ low: -0.25e-12, high: 0.25e-12, in: 'farads' })).toBe('±0.25 pF');
  });
});
