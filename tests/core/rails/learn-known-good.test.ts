import { describe, expect, it } from 'vitest';
import {
  boardWithKnownGood,
  learnKnownGood,
  poolKnownGood,
} from '../../../core/rails/learn-known-good.ts';
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

describe('poolKnownGood', () => {
  it('does not let one new reading overturn five stated ones', () => {
    const pooled = poolKnownGood({ median: 9000, spread: 800, count: 5 }, [7000]);
    expect(pooled?.count).toBe(6);
    expect(pooled?.median).toBeGreaterThan(8000);
    expect(pooled?.spread).toBeGreaterThan(300);
  });

  it('lets many readings win over a stated figure', () => {
    const values = Array.from({ length: 40 }, (_, at) => 7000 + at);
    expect(poolKnownGood({ median: 9000, spread: 800, count: 5 }, values)?.median).toBeLessThan(
      7100,
    );
  });

  it('gives a figure stated without a count up for the first reading', () => {
    expect(poolKnownGood({ median: 900, spread: 0, count: 1 }, [880])).toEqual({
      median: 880,
      spread: 0,
      count: 1,
    });
  });

  it('keeps what is stated when nothing was read', () => {
    const stated = { median: 900, spread: 20, count: 3 };
    expect(poolKnownGood(stated, [])).toEqual(stated);
    expect(poolKnownGood(null, [])).toBeNull();
  });
});
