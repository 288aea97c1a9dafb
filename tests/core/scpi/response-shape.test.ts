import { describe, expect, it } from 'vitest';
import {
  ampsReply,
  booleanReply,
  compoundReply,
  errorReply,
  identityReply,
  numbersReply,
  registerReply,
  voltsReply,
  wordReply,
} from '../../../core/scpi/response-shape.ts';

describe('the shape of a reply', () => {
  it('tells volts from amps where the instrument names them', () => {
    expect(voltsReply.decode('-0.006V')).toBeDefined();
    expect(voltsReply.decode('0.600A')).toBeUndefined();
    expect(ampsReply.decode('0.600A')).toBeDefined();
    expect(ampsReply.decode('V1 1.350')).toBeUndefined();
    expect(voltsReply.decode('I1 0.350')).toBeUndefined();
    expect(voltsReply.decode('V1 1.350')).toBeDefined();
    expect(ampsReply.decode(':SOUR:CURR 0.1')).toBeDefined();
  });

  it('takes an identity for no number and no error, and neither for an identity', () => {
    const identities = ['MA,IN,0,VER', 'MODELV2.0', 'NAME v1.4, built DATE, hv rev 3'];
    for (const text of identities) expect(identityReply.decode(text), text).toBe(text);
    for (const text of ['3.300', '-113,"Undefined header"', 'V1 1.350', '\xff\xfe\x01', '1']) {
      expect(identityReply.decode(text), text).toBeUndefined();
    }
  });

  it('takes registers as whole numbers of 16 bits', () => {
    expect(['0', '+1024', '1.0E+1'].map((t) => registerReply.decode(t))).toEqual([0, 1024, 10]);
    for (const text of ['1.5', '-1', '65536', 'x', '1V']) {
      expect(registerReply.decode(text), text).toBeUndefined();
    }
  });

  it('takes a compound answer field by field, and none with a field too few or too many', () => {
    const shape = compoundReply([voltsReply, ampsReply, wordReply, booleanReply]);
    expect(shape.decode('3.300;0.512;"CV";1')?.[2]).toBe('CV');
    expect(shape.decode('3.300;0.512;"CV"')).toBeUndefined();
    expect(shape.decode('1;3.300;0.512;"CV";1')).toBeUndefined();
    expect(shape.decode('3.300;0.512;1;"CV"')).toBeUndefined();
  });

  it('takes several readings in one reply', () => {
    expect(numbersReply.decode('+4.27150000E-03,5.27150000E-03')).toHaveLength(2);
    expect(numbersReply.decode('4.105,0.512,2.102')).toHaveLength(3);
    expect(numbersReply.decode('4.105,,2.102')).toBeUndefined();
  });

  it('takes an error entry for nothing else', () => {
    const entry = '0,"No error"';
    expect(errorReply.decode(entry)?.code).toBe(0);
    for (const shape of [voltsReply, booleanReply, registerReply, wordReply]) {
      expect(shape.decode(entry), shape.due).toBeUndefined();
    }
  });
});
