import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeNumber } from '../../../core/scpi/response-number.ts';

const value = (text: string) => {
  const reply = decodeNumber(text);
  return reply?.kind === 'value' ? reply.value : reply?.kind;
};
const decimals = (text: string) => {
  const reply = decodeNumber(text);
  return reply?.kind === 'value' ? reply.decimals : undefined;
};

describe('a number in a reply', () => {
  it('is read as NR1, NR2 and NR3 (IEEE 488.2 response data, as programming guides print it)', () => {
    expect(['273', '.273', '0.273', '2.73E+2', '273.', '2.73E2'].map(value)).toEqual([
      273, 0.273, 0.273, 273, 273, 273,
    ]);
  });

  it('is read in every decimal form of the lexer tests of the open-source library j123b567/scpi-parser', () => {
    expect(['+.5', '-10.5', '1.5E12'.replace('12', '6'), '5.', '.5', '-1 e 3'].map(value)).toEqual([
      0.5, -10.5, 1.5e6, 5, 0.5, -1000,
    ]);
    expect(decodeNumber('-.')).toBeUndefined();
    expect(decodeNumber('-1 e ')).toBeUndefined();
  });

  it('is read as bench instruments were seen to send it', () => {
    expect(value('+1.86850000E-03')).toBe(1.8685e-3);
    expect(value('+1.73730000E-03 VDC')).toBe(1.7373e-3);
    expect(value('-0.006V')).toBe(-0.006);
    expect(value('0.000A')).toBe(0);
    expect(value('0.6A')).toBe(0.6);
    expect(value('V1 1.350')).toBe(1.35);
    expect(value('+198.4891E-12NADC')).toBeCloseTo(198.4891e-12, 20);
    expect(value('+0007633.858813secs')).toBe(7633.858813);
    expect(value('+58454RDNG#')).toBe(58454);
  });

  it('takes multiplied units by IEEE 488.2 table 7-2, any case (tests of j123b567/scpi-parser)', () => {
    expect(value('1.2mV')).toBeCloseTo(0.0012, 12);
    expect(value('1.2e-1V')).toBeCloseTo(0.12, 12);
    expect(value('100 OHM')).toBe(100);
    expect(value('500MA')).toBeCloseTo(0.5, 12);
    expect(value('3300 mV')).toBeCloseTo(3.3, 12);
    expect(value('1.5 KOHM')).toBe(1500);
    expect(value('2MOHM')).toBe(2e6);
    expect(value('1MHZ')).toBe(1e6);
  });

  it('is read in hexadecimal, octal and binary (tests of j123b567/scpi-parser)', () => {
    expect(['#HFF', '#Q77', '#B11', '#H20', '#Q20', '#B101010'].map(value)).toEqual([
      255, 63, 3, 32, 16, 42,
    ]);
    expect(['#HFF', '#Q377', '#B11111111'].map(value)).toEqual([255, 255, 255]);
    for (const text of ['#H', '#Q8', '#B2', '#HXY', '#12AB']) {
      expect(decodeNumber(text), text).toBeUndefined();
    }
  });

  it('refuses a unit that could mean two things a thousand million times apart', () => {
    expect(decodeNumber('2mOhm')).toBeUndefined();
  });

  it('takes 9.9E37 and all seen kin as over range, whichever way (SCPI-1999 vol. 1, 7.2.1)', () => {
    const overloads = ['9.9E37', '9.90000000E+37', '+9.90000000E+37', '9.99999999e+37', '1E9'];
    const words = ['INF', '+INF', 'infinity', 'OL', 'O.L', 'OVLD', 'overload', 'OVERFLOW'];
    for (const text of [...overloads, ...words]) {
      expect(decodeNumber(text), text).toEqual({ kind: 'overload', sign: 1 });
    }
    for (const text of ['-9.90000000E+37', '-INF', '-OL', '-9.9E37']) {
      expect(decodeNumber(text), text).toEqual({ kind: 'overload', sign: -1 });
    }
    expect(decodeNumber('+1.0E-3OADC')).toEqual({ kind: 'overload', sign: 1 });
  });

  it('takes 9.91E37 as no data in any spelling, as a number and never as text', () => {
    for (const text of [
      '9.91E37',
      '+9.910000E+37',
      '9.91000E+37',
      '9.91000000E+37',
      'NAN',
      '---',
    ]) {
      expect(decodeNumber(text), text).toEqual({ kind: 'no-data' });
    }
  });

  it('counts the digits that the instrument resolved, in base units', () => {
    expect(decimals('4.105')).toBe(3);
    expect(decimals('+1.86850000E-03')).toBe(11);
    expect(decimals('12.34mV')).toBe(5);
    expect(decimals('1.5 KOHM')).toBe(0);
    expect(decimals('273')).toBe(0);
  });

  it('is never made from something else: text, halves, glued readings and empty replies are none', () => {
    const others = ['', ' ', 'CC', '3.3.3', '3.3 3.3', '3,3', '1.2;3', 'E5', '+', '0x10'];
    for (const text of [...others, '100 xyz', '12V3', '**ERROR', '1.2EV5', 'MODELV2.0']) {
      expect(decodeNumber(text), text).toBeUndefined();
    }
  });

  it('reads back whatever a number is written as', () => {
    const sign = fc.constantFrom('', '+', '-');
    const written = fc.tuple(sign, fc.double({ min: 0, max: 1e8, noNaN: true }), fc.nat(9));
    fc.assert(
      fc.property(written, ([mark, number, digits]) => {
        for (const text of [number.toFixed(digits), number.toExponential(digits)]) {
          const reply = decodeNumber(mark + text);
          expect(reply?.kind === 'value' ? reply.value : null).toBe(Number(mark + text));
        }
      }),
    );
  });

  it('never throws, whatever it is given', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 40 }), (text) => {
        const reply = decodeNumber(text);
        if (reply?.kind === 'value') expect(Number.isFinite(reply.value)).toBe(true);
      }),
      { numRuns: 2000 },
    );
  });
});
