import { NO_BREAK_SPACE } from '../units/format.ts';

/** Digits after the point where a currency has not two of them (ISO 4217, list one). */
const DIGITS: Readonly<Record<string, number>> = {
  ...Object.fromEntries(
    'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'
      .split(' ')
      .map((code) => [code, 0]),
  ),
  ...Object.fromEntries('BHD IQD JOD KWD LYD OMR TND'.split(' ').map((code) => [code, 3])),
  CLF: 4,
  UYW: 4,
};

/** Largest amount, in minor units: beyond it a typing slip is likelier than a repair. */
export const MOST_MINOR = 100_000_000_000;

/** Digits after the point of a currency by its three letters. */
export const currencyDigits = (currency: string): number => DIGITS[currency] ?? 2;

/** Whether three letters have the form of a currency's code (ISO 4217). */
export const isCurrencyCode = (text: string): boolean => /^[A-Z]{3}$/u.test(text);

/** What a typed amount means in minor units, or what is wrong with it and at which character. */
export type ParsedMoney =
  | { readonly ok: true; readonly minor: number }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };

/**
 * Reads an amount of money as people type it: `120`, `120.50`, `120,50`, `1 200.50`, with the
 * currency's code before or behind it or without. Nothing is rounded: more digits than the currency
 * has are refused, and so is a comma that may part thousands. Never throws.
 */
export function parseMoney(text: string, currency: string): ParsedMoney {
  const digits = currencyDigits(currency);
  const example = `Type it like ${digits === 0 ? '1200' : `120.${'5'.padEnd(digits, '0')}`}.`;
  const wrong = (at: number, what: string, todo = example): ParsedMoney => ({
    ok: false,
    at,
    what,
    todo,
  });
  const lead = text.length - text.trimStart().length;
  let body = text.trim();
  let at = lead;
  const code = /^([a-z]{3})\s*/iu.exec(body);
  if (code !== null) {
    if (code[1]!.toUpperCase() !== currency) {
      return wrong(at, `The shop's currency is ${currency}, not ${code[1]}`);
    }
    at += code[0].length;
    body = body.slice(code[0].length);
  }
  const behind = /\s*([a-z]{3})$/iu.exec(body);
  if (behind !== null) {
    if (behind[1]!.toUpperCase() !== currency) {
      const where = at + behind.index + behind[0].length - 3;
      return wrong(where, `The shop's currency is ${currency}, not ${behind[1]}`);
    }
    body = body.slice(0, behind.index);
  }
  if (body === '') return wrong(text.length, 'No amount is typed');
  const odd = /[^\d.,\s'’]/u.exec(body);
  if (odd !== null) return wrong(at + odd.index, `"${odd[0]}" is no part of an amount`);
  const match = /^(\d{1,3}(?:[\s'’]\d{3})+|\d+)?(?:([.,])(\d*))?$/u.exec(body);
  if (match === null || (match[1] === undefined && (match[3] ?? '') === '')) {
    return wrong(at, 'This is not an amount');
  }
  const [, whole = '0', point, fraction = ''] = match;
  const pointAt = at + (match[1]?.length ?? 0);
  if (point === ',' && fraction.length === 3 && whole !== '0' && whole.length <= 3) {
    return wrong(
      pointAt,
      'This comma may mean thousands or a decimal point',
      `Write ${whole}${fraction} or ${whole}.${fraction}.`,
    );
  }
  if (fraction.length > digits) {
    const what =
      digits === 0
        ? `${currency} has no digits after the point`
        : `${currency} has ${digits} digits after the point`;
    return wrong(pointAt + 1 + digits, what);
  }
  const minor = Number(`${whole.replace(/\D/gu, '')}${fraction.padEnd(digits, '0')}`);
  if (!Number.isSafeInteger(minor) || minor > MOST_MINOR) return wrong(at, 'This is too much');
  return { ok: true, minor };
}

/** Minor units as they are shown: `1 200.50 EUR`, groups of three by ISO 80000-1, 7.3. */
export function formatMoney(minor: number, currency: string): string {
  const digits = currencyDigits(currency);
  const all = String(Math.abs(minor)).padStart(digits + 1, '0');
  const whole = all.slice(0, all.length - digits);
  const grouped = whole.replace(/\B(?=(\d{3})+$)/gu, NO_BREAK_SPACE);
  const fraction = digits === 0 ? '' : `.${all.slice(all.length - digits)}`;
  return `${minor < 0 ? '\u2212' : ''}${grouped}${fraction}${NO_BREAK_SPACE}${currency}`;
}

/**
 * `units` times `perUnit` divided by `parts`, rounded once to whole minor units, halves away from
 * zero. Exact for whole numbers of any size that a double holds.
 */
export function timesMinor(units: number, perUnit: number, parts: number): number {
  const product = BigInt(units) * BigInt(perUnit);
  const isNegative = product < 0n;
  const size = isNegative ? -product : product;
  const rounded = (2n * size + BigInt(parts)) / (2n * BigInt(parts));
  return Number(isNegative ? -rounded : rounded);
}
