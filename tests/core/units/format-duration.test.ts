import { describe, expect, it } from 'vitest';
import { formatDuration } from '../../../core/units/format-duration.ts';

describe('formatDuration', () => {
  it.each([
    [0, '0.0 s'],
    [0.42, '0.4 s'],
    [9.94, '9.9 s'],
    [9.96, '10 s'],
    [59.4, '59 s'],
    [59.6, '1 min 00 s'],
    [125, '2 min 05 s'],
    [3599.6, '1 h 00 min'],
    [3720, '1 h 02 min'],
    [28_800, '8 h 00 min'],
    [-0.01, '0.0 s'],
  ])('says %d seconds as %s', (seconds, text) => {
    expect(formatDuration(seconds).replaceAll('\u00a0', ' ')).toBe(text);
  });

  it('says unknown as a dash', () => {
    expect(formatDuration(null)).toBe('–');
    expect(formatDuration(Number.NaN)).toBe('–');
  });
});
