import { describe, expect, it } from 'vitest';
import { checkReadingLimit, readingLimit } from '../../../core/guard/guard-limit.ts';

const supply = { maxV: 30, maxA: 5, name: 'the supply' };

describe('a guard limit', () => {
  it('is refused above what the supply can give, with what it can', () => {
    expect(() =>
      checkReadingLimit({ on: 'amps', aboveA: 6, holdS: 0, action: 'off' }, supply),
    ).toThrow('A guard at 6 A never trips: this supply gives at most 5 A (the supply)');
    expect(() =>
      checkReadingLimit({ on: 'watts', aboveW: 151, holdS: 0, action: 'off' }, supply),
    ).toThrow('at most 150 W');
  });

  it('is taken at the supply’s own maximum, and whatever it is when the supply tells none', () => {
    checkReadingLimit({ on: 'volts', aboveV: 30, holdS: 0, action: 'off' }, supply);
    const silent = { maxV: null, maxA: null, name: 'x' };
    checkReadingLimit({ on: 'volts', aboveV: 300, holdS: 0, action: 'off' }, silent);
  });

  it('refuses an unknown key, a limit that is not positive and an unknown action', () => {
    const fine = { on: 'amps', aboveA: 1, holdS: 0, action: 'off' };
    expect(readingLimit.safeParse(fine).success).toBe(true);
    expect(readingLimit.safeParse({ ...fine, aboveV: 1 }).success).toBe(false);
    expect(readingLimit.safeParse({ ...fine, aboveA: 0 }).success).toBe(false);
    expect(readingLimit.safeParse({ ...fine, action: 'explode' }).success).toBe(false);
  });
});
