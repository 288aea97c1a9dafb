import { describe, expect, it } from 'vitest';
import { formatTemperature, parseTemperature } from '../../../core/pictures/format-temperature.ts';

describe('a temperature beside a mark', () => {
  it('is read as it is typed', () => {
    expect(parseTemperature('')).toBeNull();
    expect(parseTemperature(' 87 ')).toBe(87);
    expect(parseTemperature('87,5 °C')).toBe(87.5);
    expect(parseTemperature('-12c')).toBe(-12);
  });

  it('is turned from the other scales by their definitions', () => {
    // NIST Special Publication 811 (2008), B.8: 212 degrees Fahrenheit = 100 degrees Celsius.
    expect(parseTemperature('212 F')).toBe(100);
    // The International System of Units (SI brochure, 9th edition): 273.15 K = 0 degrees Celsius.
    expect(parseTemperature('373.15K')).toBeCloseTo(100, 9);
  });

  it('is refused where no board is that hot or cold, and where it is none', () => {
    for (const wrong of ['hot', '87 V', '2000', '-200', '1e9', '--5']) {
      expect(() => parseTemperature(wrong), wrong).toThrow('no temperature of a board');
    }
  });

  it('is written with one digit at most and a true minus', () => {
    expect(formatTemperature(87)).toBe('87 °C');
    expect(formatTemperature(86.6667)).toBe('86.7 °C');
    expect(formatTemperature(-5)).toBe('−5 °C');
  });
});
