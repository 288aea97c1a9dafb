import { describe, expect, it } from 'vitest';
import { lexParameter } from '../../../core/scpi/lex-parameter.ts';
import { readChannelList, readNumericList } from '../../../core/scpi/read-list.ts';
import { isFault } from '../../../core/scpi/scpi-fault.ts';

function token(text: string) {
  const lexed = lexParameter(text, 0);
  if (isFault(lexed)) throw new Error(`${text}: ${lexed.fault}`);
  return lexed.token;
}

// Lists: j123b567/scpi-parser at 886615902b27, libscpi/test/test_parser.c.
describe('readChannelList', () => {
  it('reads a place and a range', () => {
    expect(readChannelList(token('(@1,2:3)'))).toEqual([
      { from: [1], to: [1] },
      { from: [2], to: [3] },
    ]);
  });

  it('reads two dimensions', () => {
    expect(readChannelList(token('(@1,2!5:3!6)'))).toEqual([
      { from: [1], to: [1] },
      { from: [2, 5], to: [3, 6] },
    ]);
  });

  it.each(['(1)', '(@1, 2)', '(@1,)', '(@1!2:3)', '(@)'])(
    'calls %s an expression error',
    (text) => {
      expect(readChannelList(token(text))).toMatchObject({ fault: -170 });
    },
  );

  it('refuses what is no expression', () => {
    expect(readChannelList(token('1'))).toMatchObject({ fault: -104 });
  });
});

describe('readNumericList', () => {
  it('reads numbers and ranges', () => {
    expect(readNumericList(token('(12,5:6)'))).toEqual([
      { from: [12], to: [12] },
      { from: [5], to: [6] },
    ]);
  });
});
