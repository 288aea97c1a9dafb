import { describe, expect, it } from 'vitest';
import { type Charge, chargeMinor, totalsOf } from '../../../core/shop/charge.ts';

const charge = (fields: Partial<Charge>): Charge => ({
  id: 'c',
  kind: 'part',
  words: '',
  partId: null,
  quantityMilli: 1_000,
  minutes: 0,
  unitMinor: 0,
  currency: 'EUR',
  addedAt: 0,
  ...fields,
});

describe('the lines of a job', () => {
  it('come to their own rounded amount, and the total is the sum of those (hand-worked)', () => {
    const lines = [
      charge({ unitMinor: 199, quantityMilli: 3_000 }), // 3 x 1.99 = 5.97
      charge({ unitMinor: 333, quantityMilli: 500 }), // half of 3.33 = 1.665 -> 1.67
      charge({ kind: 'time', minutes: 50, unitMinor: 7_500, quantityMilli: 0 }), // 62.50
      charge({ kind: 'time', minutes: 7, unitMinor: 7_500, quantityMilli: 0 }), // 8.75
      charge({ kind: 'other', unitMinor: 450 }), // 4.50
    ];
    expect(lines.map(chargeMinor)).toEqual([597, 167, 6_250, 875, 450]);
    expect(totalsOf(lines)).toEqual([
      { currency: 'EUR', minor: 8_339, partsMinor: 1_214, timeMinor: 7_125, minutes: 57 },
    ]);
  });

  it('never add two currencies', () => {
    const lines = [charge({ unitMinor: 100 }), charge({ unitMinor: 100, currency: 'CHF' })];
    expect(totalsOf(lines).map(({ currency, minor }) => [currency, minor])).toEqual([
      ['EUR', 100],
      ['CHF', 100],
    ]);
    expect(totalsOf([])).toEqual([]);
  });
});
