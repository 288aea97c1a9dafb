import { describe, expect, it } from 'vitest';
import { errorText, eventBitOf } from '../../../core/scpi/scpi-errors.ts';

describe('error numbers', () => {
  // Classes and their event bits: IEEE 488.2, 11.5.1, SCPI-1999 vol. 2, 21.8, and error.h of
  // j123b567/scpi-parser at 886615902b27.
  it.each([
    [-100, 32],
    [-199, 32],
    [-200, 16],
    [-299, 16],
    [-300, 8],
    [-399, 8],
    [1, 8],
    [32_767, 8],
    [-400, 4],
    [-499, 4],
    [-500, 128],
    [-600, 64],
    [-700, 2],
    [-800, 1],
  ])('%d sets event bit %d', (number, bit) => {
    expect(eventBitOf(number)).toBe(bit);
  });

  it('has the standard words, and the class words for a number that is not listed', () => {
    expect(errorText(-113)).toBe('Undefined header');
    expect(errorText(-222)).toBe('Data out of range');
    expect(errorText(-198)).toBe('Command error');
    expect(errorText(-298)).toBe('Execution error');
    expect(errorText(7)).toBe('Device-specific error');
  });
});
