import { describe, expect, it } from 'vitest';
import { likenessWords } from '../../../core/match/likeness-words.ts';

describe('likenessWords', () => {
  it('goes from the same curve to hardly alike as the distance grows', () => {
    expect([0, 0.2, 0.5, 2, Number.POSITIVE_INFINITY].map(likenessWords)).toEqual([
      'the same curve',
      'much alike',
      'somewhat alike',
      'hardly alike',
      'hardly alike',
    ]);
  });
});
