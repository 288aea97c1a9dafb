import { describe, expect, it } from 'vitest';
import { shownDecimals } from '../../../renderer/parts/shown-decimals.ts';

describe('digits of a meter', () => {
  it('are its own while they mean something', () => {
    expect(shownDecimals('volts', 3)).toBe(3);
    expect(shownDecimals('ohms', 1)).toBe(1);
  });

  it('are cut where only the way of writing made them', () => {
    expect(shownDecimals('volts', 12)).toBe(5);
    expect(shownDecimals('ohms', 9)).toBe(3);
  });
});
