import { describe, expect, it } from 'vitest';
import { parsePart } from '../../../core/parts/parse-part.ts';
import { partTokens } from '../../../core/parts/part-token.ts';
import { tidyTokens } from '../../../core/parts/tidy-tokens.ts';

const words = (text: string) => tidyTokens(partTokens(text)).map((token) => token.text);

describe('tidyTokens', () => {
  it.each([
    ['10uF25V', ['10uF', '25V']],
    ['22u6V3', ['22u', '6V3']],
    ['10k±1%', ['10k', '±1%']],
    ['100nF±10% (X7R)', ['100nF', '±10%', 'X7R']],
    ['2x22u', ['2x', '22u']],
    ['10k +/-1%', ['10k', '±1%']],
    ['10MEG 2meg2', ['10M', '2M2']],
    ['15mR 5mΩ', ['15mohm', '5mohm']],
    ['3R3 uH', ['3.3uH']],
    ['10u?', ['10u']],
    ['+80/-20%', ['+80/-20%']],
  ])('cuts and respells %s', (text, expected) => {
    expect(words(text)).toEqual(expected);
  });

  it('keeps places that point into the typed text', () => {
    const text = '(10uF25V) bad!';
    for (const { at, end } of tidyTokens(partTokens(text))) {
      expect(text.slice(at, end).trim()).not.toBe('');
    }
    expect(parsePart(text).faults).toMatchObject([{ at: 10 }]);
  });
});
