import { describe, expect, it } from 'vitest';
import { feedWords } from '../../../renderer/parts/feed-words.ts';

const feed = {
  point: 'charger-input',
  cells: false,
  screen: false,
  drive: false,
  note: '',
} as const;

describe('a feed in words', () => {
  it('says where and what is plugged in', () => {
    expect(feedWords(feed)).toBe('fed at charger input');
    expect(feedWords({ ...feed, point: 'battery-line', cells: true, drive: true })).toBe(
      'fed at battery line, with cells, drive',
    );
    expect(feedWords({ ...feed, point: 'other', note: 'at the fuse' })).toBe(
      'fed at another point, at the fuse',
    );
  });
});
