import { describe, expect, it } from 'vitest';
import { decimalsSeen } from '../../../core/record/reading-decimals.ts';

describe('decimalsSeen', () => {
  it('counts the digits after the point that an instrument showed', () => {
    expect(decimalsSeen([0.231, 0.2, 1])).toBe(3);
    expect(decimalsSeen([19, 20])).toBe(0);
    expect(decimalsSeen([0.00015])).toBe(5);
    expect(decimalsSeen([1200])).toBe(0);
  });

  it('is not led astray by readings that a double cannot hold exactly', () => {
    expect(decimalsSeen([0.1 + 0.2, 0.231 * 3])).toBe(3);
  });

  it('knows nothing where nothing was read', () => {
    expect(decimalsSeen([])).toBeNull();
    expect(decimalsSeen([Number.NaN, Infinity])).toBeNull();
  });
});
