import { describe, expect, it } from 'vitest';
import { identityWords } from '../../../renderer/parts/identity-words.ts';

describe('who an instrument is', () => {
  it('is read from the four fields of *IDN?', () => {
    expect(identityWords('Invented,SUPPLY 60V-10A,P0001,1.0')).toBe(
      'Invented SUPPLY 60V-10A, number P0001, firmware 1.0',
    );
  });

  it('leaves out fields that the instrument answers 0 (IEEE 488.2: not known)', () => {
    expect(identityWords('Invented,METER,0,0')).toBe('Invented METER');
  });

  it('is shown as it came when it is not of that shape', () => {
    expect(identityWords('MODELV2.0')).toBe('MODELV2.0');
    expect(identityWords('')).toBe('');
  });
});
