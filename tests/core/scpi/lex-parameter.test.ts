import { describe, expect, it } from 'vitest';
import { lexBlock, lexParameter } from '../../../core/scpi/lex-parameter.ts';
import type { ParameterToken } from '../../../core/scpi/program-unit.ts';
import { isFault } from '../../../core/scpi/scpi-fault.ts';

function lex(text: string): { token: ParameterToken; end: number } {
  const lexed = lexParameter(text, 0);
  if (isFault(lexed)) throw new Error(`${text}: ${lexed.fault}`);
  return lexed;
}

function faultOf(text: string): number {
  const lexed = lexParameter(text, 0);
  return isFault(lexed) ? lexed.fault : 0;
}

// Expected tokens: j123b567/scpi-parser at 886615902b27, libscpi/test/test_lexer_parser.c.
describe('lexParameter', () => {
  it.each([
    ['10', 10, 2],
    ['10 , ', 10, 2],
    ['-10.5 , ', -10.5, 5],
    ['+.5 , ', 0.5, 3],
    ['-1 e 3, ', -1000, 6],
    ['1.5E12', 1.5e12, 6],
    ['5.', 5, 2],
    ['.5', 0.5, 2],
  ])('reads the decimal %j', (text, value, end) => {
    expect(lex(text)).toEqual({ token: { kind: 'number', value, suffix: '' }, end });
  });

  // NR1, NR2 and NR3 are all taken on input as NRf: IEEE 488.2, 7.7.2.
  it.each([
    ['273', 273],
    ['273.', 273],
    ['.273', 0.273],
    ['0.273', 0.273],
    ['2.73E2', 273],
    ['2.73E+2', 273],
  ])('takes the flexible form %s', (text, value) => {
    expect(lex(text).token).toMatchObject({ kind: 'number', value });
  });

  it.each([
    ['1.5E12 V', 1.5e12, 'V', 8],
    ['-1 e , ', -1, 'e', 4],
    ['1.2mV', 1.2, 'mV', 5],
    ['1 A/V , ', 1, 'A/V', 5],
    ['1 mA.h', 1, 'mA.h', 6],
    ['1 mA3.h', 1, 'mA3.h', 7],
  ])('reads a number and its suffix from %j', (text, value, suffix, end) => {
    expect(lex(text)).toEqual({ token: { kind: 'number', value, suffix }, end });
  });

  it.each([
    ['#H123fe5A', 0x123fe5a],
    ['#B0111010101,', 0b0111010101],
    ['#Q125725433', 0o125725433],
    ['#HFF', 255],
    ['#Q77', 63],
    ['#B11', 3],
    ['#H20', 32],
    ['#Q20', 16],
    ['#B101010', 42],
  ])('reads the non-decimal %s', (text, value) => {
    expect(lex(text).token).toEqual({ kind: 'radix', value });
  });

  it.each([
    ['"ahoj" ', 'ahoj', 6],
    ["'ahoj' ", 'ahoj', 6],
    ["'ah''oj' ", "ah'oj", 8],
    ["'ah\"oj' ", 'ah"oj', 7],
    ['"ah""oj" ', 'ah"oj', 8],
    ['""', '', 2],
    ["'test\r\n' ", 'test\r\n', 8],
  ])('reads the string %j', (text, inner, end) => {
    expect(lex(text)).toEqual({ token: { kind: 'string', text: inner }, end });
  });

  it.each([
    ['#12AB', 'AB', 5],
    ['#12AB, ', 'AB', 5],
    ['#12\r\n, ', '\r\n', 5],
    ['#204ABCD', 'ABCD', 8],
    ['#213abcdefghijklm', 'abcdefghijklm', 17],
  ])('reads the block %j', (text, data, end) => {
    expect(lex(text)).toEqual({ token: { kind: 'block', text: data }, end });
  });

  it('reads words and expressions', () => {
    expect(lex('abc_213as564 , ')).toEqual({
      token: { kind: 'word', text: 'abc_213as564' },
      end: 12,
    });
    expect(lex('( 1 + 2 ) , ')).toEqual({ token: { kind: 'expression', text: ' 1 + 2 ' }, end: 9 });
  });

  it.each([
    ['-. , ', -121],
    ["'abcd", -151],
    ['"abcd', -151],
    ["'\xFA\xF0' ", -151],
    ['#13AB', -161],
    ['#12', -161],
    ['#1', -161],
    ['#', -161],
    ['( 1 + 2  , ', -170],
    ['1e32001', -123],
    ['1'.repeat(256), -124],
    [']', -102],
  ])('refuses %j with %d', (text, fault) => {
    expect(faultOf(text)).toBe(fault);
  });

  it('ends an indefinite block only with the message (IEEE 488.2, 7.7.6)', () => {
    expect(lexBlock('#0AB;CD', 0)).toEqual({ data: 'AB;CD', end: 7 });
  });
});
