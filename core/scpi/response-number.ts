import { decodeQuoted } from './response-text.ts';
import { decodeUnit, type UnitOf } from './response-unit.ts';

/** A number as an instrument sent it. */
export type NumericReply =
  | {
      readonly kind: 'value';
      readonly value: number;
      /** Digits after the point in base units that the instrument resolved: `1.86850E-03` has 8. */
      readonly decimals: number;
      /** The unit glued to it, when there was one. */
      readonly unit: UnitOf | null;
      /** The header repeated before it, when there was one. */
      readonly header: string | null;
    }
  | { readonly kind: 'overload'; readonly sign: 1 | -1 }
  | { readonly kind: 'no-data' };

/** From here up a number stands for "over range": one maker's infinity is only 1e9. */
const OVERLOAD_FROM = 1e9;
/** SCPI-1999 vol. 1, 7.2.1: not-a-number is 9.91E37; compared as a number, never as text. */
const NOT_A_NUMBER = 9.91e37;

const OVERLOAD_WORDS =
  /^[+-]?\s*(?:INF(?:INITY)?|[O0]\.?L\.?|OVLD|OVER(?:[ -]?(?:LOAD|FLOW|RANGE))?|OFL|OPEN)$/i;
const NO_DATA_WORDS = /^(?:[+-]?NAN(?:\([^)]*\))?|-{2,}(?:\.-+)?)$/i;
const NUMBER = /^([+-]?)\s*(\d+\.?\d*|\.\d+)(?:\s*[eE]\s*([+-]?)\s*(\d+))?\s*(.*)$/s;
/** One number with a comma for its point: two digits or more behind it, and no point anywhere. */
const DECIMAL_COMMA = /^([+-]?\s*\d+),(\d{2,}(?:\s*[eE]\s*[+-]?\d+)?\s*[A-Za-z]*)$/;
/** Non-decimal numbers (IEEE 488.2): hexadecimal, octal, binary. */
const RADIX = /^#(?:H([0-9A-F]+)|Q([0-7]+)|B([01]+))$/i;
const HEADER = /^:?([A-Za-z][A-Za-z0-9_:]*)(?:\s+|\s*=\s*|:\s*)([+-]?\.?\d.*)$/s;

/** A number that a device set to another language prints with a comma, with its point put back. */
export function withPoint(text: string): string {
  const parts = DECIMAL_COMMA.exec(text.trim());
  return parts === null ? text : `${parts[1]}.${parts[2]}`;
}

/**
 * Reads one number in any form seen from instruments: NR1, NR2 and NR3 (IEEE 488.2), a unit glued
 * on or after a space, a repeated header before it, and the special values of SCPI-1999 (9.9E37
 * and 9.91E37) with the words that stand for them. Undefined when the text is no number: it never
 * becomes 0.
 */
export function decodeNumber(text: string): NumericReply | undefined {
  const bare = text.trim();
  const trimmed = bare.startsWith('"') ? (decodeQuoted(bare)?.trim() ?? bare) : bare;
  if (OVERLOAD_WORDS.test(trimmed)) {
    return { kind: 'overload', sign: trimmed.startsWith('-') ? -1 : 1 };
  }
  if (NO_DATA_WORDS.test(trimmed)) return { kind: 'no-data' };
  if (trimmed.startsWith('#')) return fromRadix(trimmed);
  const plain = NUMBER.exec(trimmed);
  if (plain !== null) return fromParts(plain, null);
  const headed = HEADER.exec(trimmed);
  if (headed === null) return undefined;
  const parts = NUMBER.exec(headed[2]!);
  return parts === null ? undefined : fromParts(parts, headed[1]!);
}

function fromRadix(text: string): NumericReply | undefined {
  const [, hex, octal, binary] = RADIX.exec(text) ?? [];
  const digits = hex ?? octal ?? binary;
  if (digits === undefined || digits.length > 48) return undefined;
  const value = Number.parseInt(digits, hex !== undefined ? 16 : octal !== undefined ? 8 : 2);
  return { kind: 'value', value, decimals: 0, unit: null, header: null };
}

function fromParts(parts: RegExpExecArray, header: string | null): NumericReply | undefined {
  const [, sign, digitsOf, exponentSign, exponentDigits, tail] = parts;
  const mantissa = `${sign}${digitsOf}`;
  const exponent = exponentDigits === undefined ? undefined : `${exponentSign}${exponentDigits}`;
  const written = Number(exponent === undefined ? mantissa : `${mantissa}e${exponent}`);
  if (Number.isNaN(written)) return undefined;
  const unit = tail === '' ? null : decodeUnit(tail!.trimEnd());
  if (unit === undefined) return undefined;
  const magnitude = Math.abs(written);
  if (Math.abs(magnitude - NOT_A_NUMBER) <= NOT_A_NUMBER * 1e-6) return { kind: 'no-data' };
  const value = written * (unit?.factor ?? 1);
  if (magnitude >= OVERLOAD_FROM || unit?.overload === true) {
    return { kind: 'overload', sign: written < 0 ? -1 : 1 };
  }
  const point = mantissa.indexOf('.');
  const digits = point < 0 ? 0 : mantissa.length - point - 1;
  const shift = Number(exponent ?? 0) + Math.round(Math.log10(unit?.factor ?? 1));
  return {
    kind: 'value',
    value,
    decimals: Math.min(12, Math.max(0, digits - shift)),
    unit: unit?.of ?? null,
    header,
  };
}
