import { describe, expect, it } from 'vitest';
import {
  writeBlock,
  writeExponent,
  writeFixed,
  writeGeneral,
  writeRadix,
  writeText,
} from '../../../core/scpi/write-value.ts';

const bytes = (view: DataView) =>
  Array.from(new Uint8Array(view.buffer), (byte) => String.fromCharCode(byte)).join('');

// Expected texts: j123b567/scpi-parser at 886615902b27, libscpi/test/test_parser.c.
describe('written values', () => {
  it('doubles quotes inside text', () => {
    expect(writeText('abcd"123')).toBe('"abcd""123"');
  });

  it('writes blocks with their length', () => {
    expect(writeBlock('X1234567890')).toBe('#211X1234567890');
    const whole = new DataView(new ArrayBuffer(6));
    for (const [i, value] of [-5, 18_505, 12_340].entries()) whole.setInt16(2 * i, value);
    expect(writeBlock(bytes(whole))).toBe('#16\xFF\xFB\x48\x49\x30\x34');
    const doubles = new DataView(new ArrayBuffer(16));
    doubles.setFloat64(0, 76_543_217_654_321);
    doubles.setFloat64(8, 1_234_567_891_234_567);
    expect(writeBlock(bytes(doubles))).toBe(
      '#216\x42\xD1\x67\x66\xD3\x16\x8C\x40\x43\x11\x8B\x54\xF2\x6E\xBC\x1C',
    );
  });

  it('writes other bases with their mark', () => {
    expect(writeRadix(255, 16)).toBe('#HFF');
    expect(writeRadix(255, 8)).toBe('#Q377');
    expect(writeRadix(255, 2)).toBe('#B11111111');
  });

  it('writes whole and very small numbers as the library does', () => {
    expect(writeGeneral(2_147_483_647, 15)).toBe('2147483647');
    expect(writeGeneral(2_147_483_647, 6)).toBe('2.14748e+09');
    expect(writeGeneral(-1.256e-17, 15)).toBe('-1.256e-17');
    expect(writeGeneral(10.5, 15)).toBe('10.5');
  });

  it('writes readings as bench instruments do (common practice, no source)', () => {
    expect(writeFixed(3.2996, 3)).toBe('3.300');
    expect(writeFixed(-0.0001, 3)).toBe('0.000');
    expect(writeExponent(0.0018685, 8)).toBe('+1.86850000E-03');
    expect(writeExponent(-12.5, 8)).toBe('-1.25000000E+01');
    expect(writeExponent(9.9e37, 8)).toBe('+9.90000000E+37');
    expect(writeExponent(0, 8)).toBe('+0.00000000E+00');
  });
});
