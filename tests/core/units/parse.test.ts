import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseQuantity, pointAt } from '../../../core/units/parse.ts';
import type { Unit } from '../../../core/units/unit.ts';

const readAs = (text: string, unit: Unit) => {
  const parsed = parseQuantity(text, unit);
  expect(parsed, text).toMatchObject({ ok: true });
  return parsed.ok ? parsed.value : null;
};

const failureOf = (text: string, unit: Unit) => {
  const parsed = parseQuantity(text, unit);
  if (parsed.ok) throw new Error(`"${text}" was read as ${parsed.value}`);
  return parsed;
};

describe('parseQuantity', () => {
  // IEC 60062 letter code, as listed in encyclopedia copies of its table and in the RKM code article
  // of probsee.com (the standard's own text was not at hand).
  it.each([
    ['R47', 0.47],
    ['4R7', 4.7],
    ['470R', 470],
    ['4K7', 4700],
    ['47K', 47_000],
    ['47K3', 47_300],
    ['470K', 470_000],
    ['4M7', 4_700_000],
    ['R10', 0.1],
    ['1K0', 1000],
    ['2M2', 2_200_000],
    ['R300', 0.3],
  ])('reads %s as the letter code of IEC 60062 does: %d ohms', (text, ohms) => {
    expect(readAs(text, 'Ω')).toBe(ohms);
  });

  it.each<[string, Unit, number]>([
    ['0.231', 'A', 0.231],
    ['0.231 A', 'A', 0.231],
    ['231 mA', 'A', 0.231],
    ['231m', 'A', 0.231],
    ['12 mV', 'V', 0.012],
    ['12mv', 'V', 0.012],
    ['3V3', 'V', 3.3],
    ['.5', 'V', 0.5],
    ['5.', 'V', 5],
    ['+4', 'V', 4],
    ['-0.15 mA', 'A', -0.00015],
    ['\u22120.15 mA', 'A', -0.00015],
    ['1,5', 'V', 1.5],
    ['0,231', 'A', 0.231],
    ['2.2e3', 'Ω', 2200],
    ['1E-3', 'A', 0.001],
    ['4k7', 'Ω', 4700],
    ['2.2 Mohm', 'Ω', 2_200_000],
    ['470 ohms', 'Ω', 470],
    ['100 mΩ', 'Ω', 0.1],
    ['1.2 k\u2126', 'Ω', 1200],
    ['22 µF', 'F', 22e-6],
    ['22 \u03bcF', 'F', 22e-6],
    ['100n', 'F', 100e-9],
    ['4u7', 'F', 4.7e-6],
    ['20 ms', 's', 0.02],
    ['32.768 kHz', 'Hz', 32_768],
    ['7', '', 7],
  ])('reads %s for %s as %d', (text, unit, value) => {
    expect(readAs(text, unit)).toBe(value);
  });

  it('counts the digits that were typed, in base units', () => {
    expect(parseQuantity('0.231 A', 'A')).toMatchObject({ decimals: 3 });
    expect(parseQuantity('231.0 mA', 'A')).toMatchObject({ decimals: 4 });
    expect(parseQuantity('4k7', 'Ω')).toMatchObject({ decimals: -2 });
  });

  it.each(['OL', '0L', '0.L', '.OL', 'O.L', 'ovld', 'over range', 'Overload', 'inf', '∞'])(
    'reads %s as over range',
    (text) => {
      expect(parseQuantity(text, 'Ω')).toMatchObject({ ok: true, value: null, overload: true });
    },
  );

  it.each<[string, Unit, number, RegExp]>([
    ['', 'V', 0, /Nothing is typed/],
    ['   ', 'V', 3, /Nothing is typed/],
    ['abc', 'V', 0, /cannot begin with "a"/],
    ['-', 'V', 1, /number is missing/],
    ['4k7x', 'Ω', 3, /"x" is not understood/],
    ['4x7', 'Ω', 1, /"x" cannot stand for the point in ohms/],
    ['  5 A', 'V', 4, /in amps, and volts are expected/],
    ['5 MV', 'V', 2, /too large a prefix for volts/],
    ['5 V extra', 'V', 4, /left over/],
    ['1.2.3', 'V', 3, /".3" is not understood/],
    ['1 000', 'Ω', 2, /"000" is not understood/],
    ['1e400', 'V', 0, /too large/],
    ['100 M om', 'Ω', 6, /"om" is not a unit/],
    ['<img src=x>', 'V', 0, /cannot begin with "<"/],
  ])('points at what is wrong in "%s" for %s: character %d', (text, unit, at, what) => {
    const failure = failureOf(text, unit);
    expect(failure.at).toBe(at);
    expect(failure.what).toMatch(what);
    expect(failure.todo).not.toBe('');
  });

  it('asks which comma is meant rather than guess', () => {
    expect(failureOf('1,234', 'V')).toMatchObject({ at: 1, todo: 'Write 1234 or 1.234.' });
  });

  it('tells milli from mega when a large M is typed', () => {
    expect(failureOf('5 MA', 'A').todo).toMatch(/For milli write a small m/);
  });

  it('never throws, and always points inside the text, whatever is typed', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'grapheme' }),
        fc.constantFrom<Unit>('V', 'A', 'Ω', 'F', ''),
        (text, unit) => {
          const parsed = parseQuantity(text, unit);
          if (!parsed.ok) {
            expect(parsed.at).toBeGreaterThanOrEqual(0);
            expect(parsed.at).toBeLessThanOrEqual(text.length);
          }
        },
      ),
    );
  });
});

describe('pointAt', () => {
  it('puts a caret under the character', () => {
    expect(pointAt('4k7x', 3)).toBe('4k7x\n   ^');
  });
});
