import { describe, expect, it } from 'vitest';
import { bytesWords } from '../../../renderer/trace-files/bytes-words.ts';

describe('bytesWords', () => {
  it('keeps three digits at most, in powers of a thousand', () => {
    const words = [0, 831, 999.6, 1_437, 14_370, 143_700, 1e9].map((bytes) =>
      bytesWords(bytes).replace('\u00a0', ' '),
    );
    expect(words).toEqual([
      '0 bytes',
      '831 bytes',
      '1.00 kB',
      '1.44 kB',
      '14.4 kB',
      '144 kB',
      '1.00 GB',
    ]);
  });
});
