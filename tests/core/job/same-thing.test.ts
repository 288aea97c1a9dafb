import { describe, expect, it } from 'vitest';
import { boardKey, serialKey } from '../../../core/job/same-thing.ts';

describe('a serial number', () => {
  it('is the same whatever its case, spaces and width of letters', () => {
    const key = serialKey('Hr3-0042');
    for (const typed of [' hr3-00 42', 'HR3-0042\t', 'ＨＲ３-００４２', 'h r 3 - 0 0 4 2']) {
      expect(serialKey(typed)).toBe(key);
    }
    expect(serialKey('HR3-0043')).not.toBe(key);
  });

  it('that was not given is no key', () => {
    expect(serialKey('  ')).toBe('');
    expect(boardKey('  ')).toBeNull();
    expect(boardKey(null)).toBeNull();
  });
});
