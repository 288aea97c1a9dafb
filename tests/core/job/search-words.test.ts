import { describe, expect, it } from 'vitest';
import { foldText, searchWords } from '../../../core/job/search-words.ts';

describe('a search', () => {
  it('is its words, folded', () => {
    expect(searchWords('  Dead\tAFTER \n drop ')).toEqual(['dead', 'after', 'drop']);
    expect(searchWords('   ')).toEqual([]);
  });

  it('folds letters beyond ASCII, composed or not, and signs of another width', () => {
    expect(foldText('ÆRØ É ５Ｖ')).toBe(foldText('ærø e\u0301 5v'));
  });
});
