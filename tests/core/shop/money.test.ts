import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  currencyDigits,
  formatMoney,
  isCurrencyCode,
  parseMoney,
  timesMinor,
} from '../../../core/shop/money.ts';

const plain = (text: string) => text.replaceAll('\u00a0', ' ');

describe('an amount of money', () => {
  it('has as many digits after the point as its currency (ISO 4217, against ICU)', () => {
    for (const code of ['EUR', 'USD', 'CHF', 'JPY', 'KRW', 'CLP', 'KWD', 'TND', 'BHD', 'CLF']) {
      const known = new Intl.NumberFormat('en', { style: 'currency', currency: code });
      expect(currencyDigits(code), code).toBe(known.resolvedOptions().maximumFractionDigits);
    }
    expect(isCurrencyCode('EUR')).toBe(true);
    expect(isCurrencyCode('eur')).toBe(false);
  });

  it('is read as people type it', () => {
    const minor = (text: string, currency = 'EUR') => {
      const parsed = parseMoney(text, currency);
      return parsed.ok ? parsed.minor : parsed;
    };
    expect(minor('120')).toBe(12_000);
    expect(minor(' 120.5 ')).toBe(12_050);
    expect(minor('120,50')).toBe(12_050);
    expect(minor('1 200.50 EUR')).toBe(120_050);
    expect(minor("EUR 1'200")).toBe(120_000);
    expect(minor('0,05')).toBe(5);
    expect(minor('.5')).toBe(50);
    expect(minor('1200', 'JPY')).toBe(1_200);
    expect(minor('1.234', 'KWD')).toBe(1_234);
  });

  it('is refused, never rounded, with the character that is wrong', () => {
    expect(parseMoney('1.005', 'EUR')).toMatchObject({ ok: false, at: 4 });
    expect(parseMoney('1,200', 'EUR')).toMatchObject({ ok: false, at: 1 });
    expect(parseMoney('12x', 'EUR')).toMatchObject({ ok: false, at: 2 });
    expect(parseMoney('12 USD', 'EUR')).toMatchObject({ ok: false, at: 3 });
    expect(parseMoney('1.5', 'JPY')).toMatchObject({ ok: false });
    expect(parseMoney('', 'EUR')).toMatchObject({ ok: false });
    expect(parseMoney('99999999999999', 'EUR')).toMatchObject({ ok: false });
    expect(parseMoney('-5', 'EUR')).toMatchObject({ ok: false, at: 0 });
  });

  it('is written in groups of three and reads back as it was', () => {
    expect(plain(formatMoney(120_050, 'EUR'))).toBe('1 200.50 EUR');
    expect(plain(formatMoney(5, 'EUR'))).toBe('0.05 EUR');
    expect(plain(formatMoney(1_234_567, 'JPY'))).toBe('1 234 567 JPY');
    expect(plain(formatMoney(-1_234, 'KWD'))).toBe('−1.234 KWD');
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000_000_000 }),
        fc.constantFrom('EUR', 'JPY', 'KWD', 'CLF'),
        (minor, currency) => {
          expect(parseMoney(formatMoney(minor, currency), currency)).toEqual({ ok: true, minor });
        },
      ),
    );
  });

  it('never makes the reader throw', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 20 }), (text) => {
        const parsed = parseMoney(text, 'EUR');
        if (parsed.ok) expect(Number.isSafeInteger(parsed.minor)).toBe(true);
        else expect(parsed.at).toBeLessThanOrEqual(text.length);
      }),
    );
  });
});

describe('so many at so much', () => {
  it('is rounded once, halves away from zero', () => {
    // 25 minutes at 72.00 an hour are exactly 30.00; 1 minute at 0.30 an hour is half a cent.
    expect(timesMinor(25, 7_200, 60)).toBe(3_000);
    expect(timesMinor(1, 30, 60)).toBe(1);
    expect(timesMinor(1, 29, 60)).toBe(0);
    expect(timesMinor(-1, 30, 60)).toBe(-1);
    expect(timesMinor(1_500, 333, 1_000)).toBe(500);
  });

  it('is exact where doubles are not', () => {
    // 1.005 x 100 in doubles is 100.49999999999999.
    expect(timesMinor(1_005, 100, 1_000)).toBe(101);
    expect(timesMinor(999_999_999, 99_999_999_999, 1_000)).toBe(99_999_999_899_000_000);
  });

  it('lies within half a unit of the true product', () => {
    const whole = fc.integer({ min: 0, max: 10_000_000 });
    fc.assert(
      fc.property(whole, whole, fc.constantFrom(60, 1000), (units, per, parts) => {
        const off =
          BigInt(timesMinor(units, per, parts)) * BigInt(parts) - BigInt(units) * BigInt(per);
        expect(2n * (off < 0n ? -off : off) <= BigInt(parts)).toBe(true);
      }),
    );
  });
});
