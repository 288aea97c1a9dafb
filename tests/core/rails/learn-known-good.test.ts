import { describe, expect, it } from 'vitest';
import { boardWithKnownGood, learnKnownGood } from '../../../core/rails/learn-known-good.ts';
import { sampleBoard } from './sample-board.ts';

describe('learnKnownGood', () => {
  it('gives median, spread and count', () => {
    expect(learnKnownGood([9, 10, 11, 12, 10])).toEqual({ median: 10, spread: 1.4826, count: 5 });
    expect(learnKnownGood([1, 3])?.median).toBe(2);
  });

  it('barely moves for one board that was not good after all', () => {
    const good = learnKnownGood([480, 470, 490, 475, 485, 3]);
    expect(good?.median).toBe(477.5);
    expect(good?.spread).toBeLessThan(20);
  });

  it('has nothing to say without readings', () => {
    expect(learnKnownGood([])).toBeNull();
  });
});

describe('boardWithKnownGood', () => {
  it('puts what was learned over what was stated, rail by rail', () => {
    const learned = boardWithKnownGood(sampleBoard, [
      { rail: 'GFX', quantity: 'ohms', value: 0.6 },
      { rail: 'GFX', quantity: 'ohms', value: 0.64 },
    ]);
    const ohms = (name: string) => learned.rails.find((r) => r.name === name)?.expectedOhms;
    expect(ohms('GFX')).toMatchObject({ median: 0.62, count: 2 });
    expect(ohms('CORE')).toMatchObject({ median: 0.48, count: 5 });
  });
});
