import { describe, expect, it } from 'vitest';
import {
  decodeBoolean,
  decodeQuoted,
  decodeWord,
  shownReply,
  splitReply,
} from '../../../core/scpi/response-text.ts';

describe('text in a reply', () => {
  it('undoubles quotes of both kinds (tests of the open-source library j123b567/scpi-parser)', () => {
    expect(decodeQuoted('"a""c"')).toBe('a"c');
    expect(decodeQuoted("'a''c'")).toBe("a'c");
    expect(decodeQuoted('"abcd""123"')).toBe('abcd"123');
    expect(decodeQuoted('""')).toBe('');
  });

  it('is none when its quotes do not close or something follows them', () => {
    for (const text of ['"abc', '"abc"x', '\'abc"', 'abc', '']) {
      expect(decodeQuoted(text), text).toBeUndefined();
    }
  });

  it('gives modes with and without quotes, and as a block that is whole', () => {
    expect(['#12CC', '#202UR'].map(decodeWord)).toEqual(['CC', 'UR']);
    expect(['#13CC', '#11CC', '#2'].map(decodeWord)).toEqual(Array(3).fill(undefined));
    expect(['"CC"', 'CC', "'CV'", 'UR'].map(decodeWord)).toEqual(['CC', 'CC', 'CV', 'UR']);
    expect(decodeWord('1.35')).toBeUndefined();
    expect(decodeWord('"-113,x"')).toBeUndefined();
  });

  it('takes booleans as 0, 1, OFF and ON, and a measured 0.000 as none', () => {
    expect(['1', '+1', 'ON', 'on', '"1"'].map(decodeBoolean)).toEqual([
      true,
      true,
      true,
      true,
      true,
    ]);
    expect(['0', '+0', 'OFF', 'off'].map(decodeBoolean)).toEqual([false, false, false, false]);
    expect(['0.000', '2', '', 'YES', '-1'].map(decodeBoolean)).toEqual(Array(5).fill(undefined));
  });

  it('is split outside quotes and channel lists only', () => {
    expect(splitReply('MA,IN,0,VER;MA', ';')).toEqual(['MA,IN,0,VER', 'MA']);
    expect(splitReply('10;"PARAM2; x"', ';')).toEqual(['10', '"PARAM2; x"']);
    expect(splitReply('-113,"Undefined header, a"', ',')).toEqual([
      '-113',
      '"Undefined header, a"',
    ]);
    expect(splitReply('(@1,2),3', ',')).toEqual(['(@1,2)', '3']);
    expect(splitReply('4.105,0.512,2.102', ',')).toEqual(['4.105', '0.512', '2.102']);
  });

  it('is shown with its control bytes written out and cut when long', () => {
    expect(shownReply('\x003.3\xff')).toBe('\\x003.3\\xff');
    expect(shownReply('x'.repeat(300))).toHaveLength(80);
  });
});
