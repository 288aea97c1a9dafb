import { describe, expect, it } from 'vitest';
import { shownDecimals } from '../../../core/units/shown-decimals.ts';

describe('digits of a meter', () => {
  it('are its own while they mean something', () => {
    expect(shownDecimals('volts', 3, 8.6)).toBe(3);
    expect(shownDecimals('ohms', 1, 470)).toBe(1);
  });

  it('are cut where only the way of writing made them', () => {
    expect(shownDecimals('volts', 12, 0.000_001)).toBe(5);
    expect(shownDecimals('volts', 7, 18.981)).toBe(4);
    expect(shownDecimals('ohms', 9, 64_937)).toBe(1);
    expect(shownDecimals('ohms', 9, 2_200_000)).toBe(0);
    expect(shownDecimals('ohms', 9, null)).toBe(3);
  });
});
