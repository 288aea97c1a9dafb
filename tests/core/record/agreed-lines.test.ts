import { describe, expect, it } from 'vitest';
import { agreedLines } from '../../../core/record/agreed-lines.ts';
import { shopClock } from '../../../core/record/record-time.ts';
import type { JobTerms } from '../../../core/shop/job-terms.ts';

const clock = shopClock(0);
const at = Date.UTC(2026, 1, 2, 12);
const quote = {
  id: 'q',
  amountMinor: 12_950,
  currency: 'EUR',
  words: 'the main rail',
  madeAt: at,
  answer: 'approved',
  answeredAt: at,
  answeredHow: 'by-phone',
  answerNote: 'never printed',
} as const;
const terms: JobTerms = {
  jobId: 'j',
  customer: null,
  waitingFor: null,
  warrantyUntil: null,
  warrantyNote: '',
  quotes: [{ ...quote, amountMinor: 1, answer: 'open' }, quote],
  charges: [],
  visits: [],
};
const plain = (lines: string[]) => lines.map((line) => line.replaceAll('\u00a0', ' '));

describe('what was agreed, on paper', () => {
  it('is the newest quote with its answer, and what parts and time come to', () => {
    const charge = {
      id: 'c',
      kind: 'time',
      words: '',
      partId: null,
      quantityMilli: 0,
      minutes: 80,
      unitMinor: 7_500,
      currency: 'EUR',
      addedAt: 0,
    } as const;
    expect(plain(agreedLines({ ...terms, charges: [charge] }, clock))).toEqual([
      '129.50 EUR for the main rail, quoted on 2 Feb 2026, approved by telephone on 2 Feb 2026.',
      'Parts and time come to 100.00 EUR.',
    ]);
  });

  it('is nothing where nothing was agreed', () => {
    expect(agreedLines({ ...terms, quotes: [] }, clock)).toEqual([]);
    expect(agreedLines(null, clock)).toEqual([]);
  });
});
