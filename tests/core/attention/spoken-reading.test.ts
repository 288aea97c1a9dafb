import { describe, expect, it } from 'vitest';
import { spokenReading } from '../../../core/attention/spoken-reading.ts';

const said = (quantity: 'volts' | 'ohms' | 'diode', value: number | null, decimals = 6) =>
  spokenReading({ quantity, value, overload: value === null, decimals }, '');

describe('a reading said aloud', () => {
  it('has its unit in words and no more than four digits', () => {
    expect(said('volts', 3.299871)).toBe('3.3 volts');
    expect(said('ohms', 4712.3)).toBe('4.712 kilohms');
    expect(said('ohms', 0.1416)).toBe('141.6 milliohms');
    expect(said('volts', -0.5)).toBe('minus 0.5 volts');
  });

  it('keeps noughts that count', () => {
    expect(said('volts', 20)).toBe('20 volts');
    expect(said('ohms', 1000)).toBe('1 kilohms');
  });

  it('says where, and tells an open lead from a range', () => {
    const reading = { quantity: 'volts' as const, value: 5, overload: false, decimals: 3 };
    expect(spokenReading(reading, 'main rail')).toBe('5 volts, main rail');
    expect(said('diode', null)).toBe('open');
    expect(said('volts', null)).toBe('over range');
  });
});
