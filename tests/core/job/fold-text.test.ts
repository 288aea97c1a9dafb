import { describe, expect, it } from 'vitest';
import { foldText } from '../../../core/job/fold-text.ts';

describe('a serial number or a name', () => {
  it('folds letters beyond ASCII, composed or not, and signs of another width', () => {
    expect(foldText('ÆRØ É ５Ｖ')).toBe(foldText('ærø e\u0301 5v'));
  });
});
