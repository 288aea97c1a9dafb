import { PREFIXES, type PrefixPower, SHOWN_POWERS, type Unit } from './unit.ts';

/** Shown where a value is not known. Never 0, never empty. */
export const UNKNOWN = '–';
/** Shown where the instrument said that the value is beyond what it can show. */
export const OVER_RANGE = 'over range';
/** Number and unit stay on one line (SI Brochure 5.4.3: a space, never a hyphen, between them). */
export const NO_BREAK_SPACE = '\u00a0';
const MINUS = '\u2212';
/** Digits kept of a value whose resolution nobody told: what a person types, and no noise of doubles. */
const DIGITS_WHEN_TOLD_NOTHING = 6;

export interface FormatOptions {
  /** The value is beyond the instrument's range. */
  readonly overload?: boolean;
  /**
   * `auto` picks the engineering prefix; a power of ten (0, -3, 3 ...) holds it still, as
   * a live readout needs so that digits never jump.
   */
  readonly prefix?: 'auto' | PrefixPower;
  /** Show at most this many significant digits, for means and other computed values. */
  readonly digits?: number;
  /** Show a plus sign on positive values, for differences. */
  readonly plus?: boolean;
}

/** A quantity in pieces, for readouts that set number and unit in different sizes. */
export interface QuantityParts {
  /** Signed digits, or the dash, or "over range". */
  readonly number: string;
  /** Prefix and unit; empty when there is no number. */
  readonly unit: string;
}

/**
 * Formats `value` (base units: volts, amps, ohms ...) with `decimals` digits after the point in
 * base units, as the instrument resolved it; null or absent when nobody knows. Never shows more
 * digits than that. `null` and `NaN` are a dash; infinity and `overload` are "over range".
 */
export function quantityParts(
  value: number | null,
  unit: Unit,
  decimals: number | null = null,
  options: FormatOptions = {},
): QuantityParts {
  if (options.overload === true || value === Infinity || value === -Infinity) {
    return { number: OVER_RANGE, unit: '' };
  }
  if (value === null || Number.isNaN(value)) return { number: UNKNOWN, unit: '' };

  const known = knownDecimals(value, decimals, options.digits);
  const rounded = roundTo(value, known);
  const power = powerFor(rounded, unit, known, options.prefix ?? 'auto');
  const shown = Math.max(0, known + power);
  const scaled = shiftPoint(rounded, -power);
  const digits = Math.abs(scaled).toFixed(Math.min(shown, 20));
  const sign = rounded < 0 ? MINUS : rounded > 0 && options.plus === true ? '+' : '';
  const prefix = PREFIXES.find((p) => p.power === power)?.symbol ?? '';
  return { number: sign + digits, unit: prefix + unit };
}

/** The same as one string: `231 mA`, `4.700 kΩ`, `–`, `over range`. */
export function formatQuantity(
  value: number | null,
  unit: Unit,
  decimals: number | null = null,
  options: FormatOptions = {},
): string {
  const parts = quantityParts(value, unit, decimals, options);
  return parts.unit === '' ? parts.number : `${parts.number}${NO_BREAK_SPACE}${parts.unit}`;
}

/** A share of 1 as whole per cent: 0.58 becomes `58 %`. Null is a dash. */
export function formatPercent(share: number | null): string {
  if (share === null || !Number.isFinite(share)) return UNKNOWN;
  return `${Math.round(share * 100)}${NO_BREAK_SPACE}%`;
}

/** Digits after the point (in base units; may be negative) that are really known. */
function knownDecimals(value: number, decimals: number | null, digits: number | undefined): number {
  const leading = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)));
  if (digits !== undefined) {
    const bySignificance = digits - 1 - leading;
    return decimals === null ? bySignificance : Math.min(decimals, bySignificance);
  }
  if (decimals !== null) return decimals;
  const typed = Number(value.toPrecision(DIGITS_WHEN_TOLD_NOTHING));
  const [mantissa = '', exponent = '0'] = typed.toExponential().split('e');
  const after = mantissa.split('.')[1]?.length ?? 0;
  return after - Number(exponent);
}

function powerFor(value: number, unit: Unit, known: number, wanted: 'auto' | PrefixPower): number {
  if (wanted !== 'auto') return wanted;
  const [lowest, highest] = SHOWN_POWERS[unit];
  if (value === 0) return 0;
  let power = Math.floor(Math.log10(Math.abs(value)) / 3 + 1e-12) * 3;
  power = Math.min(highest, Math.max(lowest, power));
  // 0.1 A of a meter that shows tenths is not "100 mA": those zeros were never measured.
  while (known > 0 && known + power < 0 && power < highest) power += 3;
  return power;
}

function roundTo(value: number, decimals: number): number {
  if (decimals >= 0) return Number(value.toFixed(Math.min(decimals, 20)));
  const unit = 10 ** -decimals;
  return Math.round(value / unit) * unit;
}

/** Moves the decimal point in decimal text, so that 0.231 becomes 231 and not 231.00000000000003. */
function shiftPoint(value: number, places: number): number {
  const [mantissa = '0', exponent = '0'] = value.toExponential().split('e');
  return Number(`${mantissa}e${Number(exponent) + places}`);
}
