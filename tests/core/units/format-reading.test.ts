import { describe, expect, it } from 'vitest';
import {
  formatExpected,
  formatReading,
  readingParts,
  type ShownReading,
} from '../../../core/units/format-reading.ts';

const reading = (fields: Partial<ShownReading>): ShownReading => ({
  quantity: 'volts',
  value: 1,
  overload: false,
  decimals: 3,
  ...fields,
});
const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('formatReading', () => {
  it('shows volts and diode readings in volts, as meters do', () => {
    expect(plain(formatReading(reading({ value: 0.0231, decimals: 4 })))).toBe('0.0231 V');
    expect(plain(formatReading(reading({ quantity: 'diode', value: 0.512 })))).toBe('0.512 V');
  });

  it('shows ohms and amps with their prefix', () => {
    expect(plain(formatReading(reading({ quantity: 'ohms', value: 4713, decimals: 0 })))).toBe(
      '4.713 kΩ',
    );
    expect(plain(formatReading(reading({ quantity: 'amps', value: 0.231 })))).toBe('231 mA');
  });

  it('shows an open diode reading as over range', () => {
    const open = reading({ quantity: 'diode', value: null, overload: true });
    expect(formatReading(open)).toBe('over range');
    expect(readingParts(open)).toEqual({ number: 'over range', unit: '' });
  });
});

describe('formatExpected', () => {
  it.each([
    [8.4, 8.8, 'volts', '8.4 V to 8.8 V'],
    [3.3, 3.3, 'volts', '3.3 V'],
    [2000, null, 'ohms', 'at least 2 kΩ'],
    [null, 0.5, 'ohms', 'at most 0.5 Ω'],
    [null, null, 'ohms', '–'],
  ] as const)('writes %s to %s in %s as %s', (low, high, quantity, text) => {
    expect(plain(formatExpected(low, high, quantity))).toBe(text);
  });
});
