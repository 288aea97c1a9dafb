/** What a word with a unit says. */
export type PartQuantity = {
  readonly unit: 'V' | 'A' | 'W' | '%' | 'Ω' | 'F' | 'H' | 'Hz';
  readonly value: number;
};

/** `doubt` names what the prefix may have meant when it is not plain. */
export type ReadPartQuantity =
  | { readonly ok: true; readonly quantity: PartQuantity; readonly doubt: string | null }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };

const PREFIX: Readonly<Record<string, number>> = {
  p: -12,
  P: -12,
  n: -9,
  N: -9,
  u: -6,
  U: -6,
  µ: -6,
  μ: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
};

const UNITS: readonly (readonly [RegExp, PartQuantity['unit']])[] = [
  [/^(hz)$/i, 'Hz'],
  [/^(f|farads?)$/i, 'F'],
  [/^(h|henr(y|ies))$/i, 'H'],
  [/^(ohms?|Ω|\u2126)$/i, 'Ω'],
  [/^(v|vdc|vac|wv|volts?)$/i, 'V'],
  [/^(a|amps?)$/i, 'A'],
  [/^(w|watts?)$/i, 'W'],
  [/^%$/, '%'],
];

/**
 * Reads a number with its unit: `25V`, `6V3`, `10uF`, `1/4W`, `±20%`, `23mohm`, `3.15A`. Null when
 * the word has no unit at all; a failure when it has a unit but something is wrong before it, `at`
 * counted in the word.
 */
export function readPartQuantity(word: string): ReadPartQuantity | null {
  const old = /^(\d+[.,]\d*|[.,]?\d+)mfd$/i.exec(word);
  if (old !== null) {
    // Old marks write microfarads so (common practice, no source).
    const value = numberOf(old[1] ?? '', -6);
    return { ok: true, quantity: { unit: 'F', value }, doubt: null };
  }
  const match =
    /^([±+]?)(\d+\/\d+|\d+[.,]\d*|[.,]?\d+)([^\d.,/]*?)(hz|farads?|henry|henries|ohms?|vdc|vac|wv|volts?|amps?|watts?|[FHVAWΩ\u2126%])(\d*)$/iu.exec(
      word,
    );
  if (match === null) return null;
  const [, sign = '', digits = '', prefix = '', unitText = '', fraction = ''] = match;
  const unit = UNITS.find(([pattern]) => pattern.test(unitText))?.[1];
  if (unit === undefined) return null;
  const prefixAt = sign.length + digits.length;
  if (fraction !== '' && (prefix !== '' || /[.,/]/.test(digits) || !/^[VA]$/i.test(unitText))) {
    return null;
  }
  if (prefix.length > 1 || (prefix !== '' && PREFIX[prefix] === undefined)) {
    return {
      ok: false,
      at: prefixAt,
      what: `"${prefix}" before ${unitText} is no prefix`,
      todo: 'Prefixes are p, n, u, m, k, M and G.',
    };
  }
  const power = prefix === '' ? 0 : (PREFIX[prefix] ?? 0);
  const value = numberOf(fraction === '' ? digits : `${digits}.${fraction}`, power);
  const isOdd =
    (prefix === 'M' && unit !== 'Ω' && unit !== 'Hz') ||
    (prefix === 'm' && unit === 'F' && value >= 1e-3);
  if (!isOdd) return { ok: true, quantity: { unit, value }, doubt: null };
  const meant = prefix === 'M' ? 'a large M is mega' : 'a small m is milli';
  return {
    ok: true,
    quantity: { unit, value },
    doubt: `${meant}, which hardly exists here; micro is u, milli is m`,
  };
}

/** A number with an optional comma or fraction, times a power of ten, without noise of doubles. */
export function numberOf(digits: string, power: number): number {
  const [top = '', bottom] = digits.replace(',', '.').split('/');
  const value = Number(`${Number(top)}e${power}`);
  return bottom === undefined ? value : value / Number(bottom);
}
