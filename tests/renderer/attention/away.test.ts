import { describe, expect, it } from 'vitest';
import { AWAY_MS, createAway } from '../../../renderer/attention/away.ts';

describe('being away', () => {
  it('counts from the first leaving to the coming back, when that was long enough', () => {
    const away = createAway();
    away.left(1000);
    away.left(5000);
    expect(away.back(1000 + AWAY_MS)).toEqual({ fromMs: 1000, toMs: 1000 + AWAY_MS });
    expect(away.back(9e9)).toBeNull();
  });

  it('is nothing under two minutes', () => {
    const away = createAway();
    away.left(0);
    expect(away.back(AWAY_MS - 1)).toBeNull();
  });
});
