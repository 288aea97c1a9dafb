import { describe, expect, it } from 'vitest';
import { lexParameter } from '../../../core/scpi/lex-parameter.ts';
import type { ParameterToken } from '../../../core/scpi/program-unit.ts';
import {
  readBlock,
  readBoolean,
  readChoice,
  readNumber,
  readText,
} from '../../../core/scpi/read-parameter.ts';
import { isFault, type ScpiFault } from '../../../core/scpi/scpi-fault.ts';

function token(text: string): ParameterToken {
  const lexed = lexParameter(text, 0);
  if (isFault(lexed)) throw new Error(`${text}: ${lexed.fault}`);
  return lexed.token;
}
const numberOf = (value: unknown) => (isFault(value) ? (value as ScpiFault).fault : value);

// Pairs: j123b567/scpi-parser at 886615902b27, libscpi/test/test_parser.c; units by IEEE 488.2
// table 7-2 as that library's units.c cites it.
describe('readNumber', () => {
  it.each([
    ['3300 mV', 'V', 3.3],
    ['3300MV', 'V', 3.3],
    ['1.2mV', 'V', 0.0012],
    ['1.2e-1V', 'V', 0.12],
    ['500MA', 'A', 0.5],
    ['2MOHM', 'OHM', 2e6],
    ['2MAOHM', 'OHM', 2e6],
    ['1MHZ', 'HZ', 1e6],
    ['1.5 KOHM', 'OHM', 1500],
    ['100 OHM', 'OHM', 100],
    ['#Q20', 'V', 16],
    ['#H20', 'V', 32],
    ['#B11', 'V', 3],
  ] as const)('%s as %s is %d', (text, unit, value) => {
    expect(numberOf(readNumber(token(text), { unit }))).toBeCloseTo(value, 12);
  });

  const words = { MINimum: 0, MAXimum: 60, DEFault: 5 };
  it.each([
    ['min', 0],
    ['maximum', 60],
    ['DEF', 5],
    ['MAXI', -224],
    ['minc', -224],
  ])('reads the word %s as %d', (text, value) => {
    expect(numberOf(readNumber(token(text), { words }))).toBe(value);
  });

  it.each([
    ['100 xyz', { unit: 'V' as const }, -131],
    ['5 HZ', { unit: 'V' as const }, -131],
    ['10.5V', {}, -138],
    ['abcd', {}, -104],
    ['"1"', {}, -104],
    ['(1)', {}, -104],
    ['#11A', {}, -104],
    ['61', { max: 60 }, -222],
    ['-0.1', { min: 0 }, -222],
    ['1e999', { max: 60 }, -222],
  ])('refuses %s with %j', (text, rule, fault) => {
    expect(numberOf(readNumber(token(text), rule))).toBe(fault);
  });
});

describe('readBoolean', () => {
  it.each([
    ['ON', true],
    ['1', true],
    ['100', true],
    ['OFF', false],
    ['0', false],
    ['0.4', false],
    ['XYZ', -224],
    ['1V', -138],
    ['"ON"', -104],
  ])('%s is %s', (text, value) => {
    expect(numberOf(readBoolean(token(text)))).toBe(value);
  });
});

describe('readChoice', () => {
  it('takes the short and the long form of a declared word and refuses others', () => {
    const choices = ['SOURce', 'BUS'] as const;
    expect(readChoice(token('SOUR'), choices)).toBe('SOURce');
    expect(readChoice(token('source'), choices)).toBe('SOURce');
    expect(numberOf(readChoice(token('ON'), choices))).toBe(-224);
    expect(numberOf(readChoice(token('1'), choices))).toBe(-104);
  });
});

describe('readText and readBlock', () => {
  it('undo doubled quotes', () => {
    expect(readText(token("'a''c'"))).toBe("a'c");
    expect(readText(token('"a""c"'))).toBe('a"c');
  });

  it('never take one for the other', () => {
    expect(readBlock(token('#204ABCD'))).toBe('ABCD');
    expect(numberOf(readBlock(token('"ABCD"')))).toBe(-104);
    expect(numberOf(readText(token('#204ABCD')))).toBe(-104);
  });
});
