import { describe, expect, it } from 'vitest';
import { feedDifference } from '../../../core/match/feed-difference.ts';
import { CHARGER_FEED } from '../../support/ledger-samples.ts';

describe('feedDifference', () => {
  it('has nothing to say of the same feed, whatever was noted beside it', () => {
    expect(feedDifference(CHARGER_FEED, { ...CHARGER_FEED, note: 'long leads' })).toBeNull();
  });

  it('says what was fed elsewhere and what was plugged in or not', () => {
    const theirs = { ...CHARGER_FEED, point: 'main-rail', cells: true } as const;
    expect(feedDifference({ ...CHARGER_FEED, screen: true }, theirs)).toBe(
      'fed at the main rail, not the charger input, with cells, without screen',
    );
  });
});
