import { example, letterPower, readUnit } from './read-unit.ts';
import { UNIT_WORDS, type Unit } from './unit.ts';

/** What a typed value means, or what is wrong with it and at which character. */
export type Parsed =
  | {
      readonly ok: true;
      /** In base units; null when it is over range. */
      readonly value: number | null;
      readonly overload: boolean;
      /** Digits after the point in base units that were typed; negative for `4k7`. */
      readonly decimals: number;
    }
  | {
      readonly ok: false;
      /** Index of the character in the text as typed; its length when something is missing. */
      readonly at: number;
      readonly what: string;
      readonly todo: string;
    };

const OVERLOAD = /^(\.?[o0]\.?l\.?|ovld|over ?load|over[ -]?range|inf(inity)?|∞)$/i;
/**
 * Reads what a person types for a quantity in `unit`: `0.231`, `231 mA`, `12mV`, `4k7`, `4R7`,
 * `R47`, `3V3`, `1,5`, `2.2e3`, `OL`. The letter may stand for the point (IEC 60062 for
 * resistors; `3V3` is common practice, no source). Never throws.
 */
export function parseQuantity(text: string, unit: Unit): Parsed {
  const lead = text.length - text.trimStart().length;
  const body = text.trim();
  if (body === '') return wrong(text.length, 'Nothing is typed', example(unit));
  if (OVERLOAD.test(body)) return { ok: true, value: null, overload: true, decimals: 0 };

  const sign = /^[+\-\u2212]/.exec(body)?.[0] ?? '';
  let at = sign.length;
  const rest = body.slice(at);
  const lettered = /^(\d*)([a-zµμΩ\u2126])(\d+)/i.exec(rest);
  if (lettered !== null && !/^\d+e\d/i.test(rest)) {
    const [all, whole = '', letter = '', fraction = ''] = lettered;
    const power = letterPower(letter, unit);
    if (power === null) {
      return wrong(
        lead + at + whole.length,
        `"${letter}" cannot stand for the point in ${UNIT_WORDS[unit]}`,
        example(unit),
      );
    }
    at += all.length;
    const trailing = readUnit(body.slice(at).trimStart(), unit, false);
    const skipped = body.slice(at).length - body.slice(at).trimStart().length;
    if ('what' in trailing)
      return wrong(lead + at + skipped + trailing.at, trailing.what, trailing.todo);
    return found(`${sign}${whole === '' ? '0' : whole}.${fraction}`, fraction.length, power);
  }

  const number = /^(\d+([.,]\d*)?|[.,]\d+)(e[+-]?\d+)?/i.exec(rest);
  if (number === null) {
    const shown = body.charAt(at);
    return wrong(
      lead + at,
      shown === '' ? 'A number is missing' : `A number cannot begin with "${shown}"`,
      example(unit),
    );
  }
  const mantissa = number[1] ?? '';
  if (/^[1-9]\d{0,2},\d{3}$/.test(mantissa)) {
    const plain = mantissa.replace(',', '');
    return wrong(
      lead + at + mantissa.indexOf(','),
      'This comma may mean thousands or a decimal point',
      `Write ${plain} or ${mantissa.replace(',', '.')}.`,
    );
  }
  at += number[0].length;
  const after = body.slice(at);
  const gap = after.length - after.trimStart().length;
  const suffix = readUnit(after.trimStart(), unit, true);
  if ('what' in suffix) return wrong(lead + at + gap + suffix.at, suffix.what, suffix.todo);
  const digits = mantissa.replace(',', '.');
  const exponent = Number((number[3] ?? 'e0').slice(1));
  const value = found(sign + digits, digits.split('.')[1]?.length ?? 0, exponent + suffix.power);
  if (value.ok && value.value !== null && !Number.isFinite(value.value)) {
    return wrong(lead + sign.length, 'This number is too large', example(unit));
  }
  return value;
}

/** The typed text with a caret under the character that is wrong, for a message in fixed type. */
export function pointAt(text: string, at: number): string {
  return `${text}\n${' '.repeat(at)}^`;
}

function found(digits: string, after: number, power: number): Parsed {
  const value = Number(`${digits.replace('\u2212', '-')}e${power}`);
  return { ok: true, value: value === 0 ? 0 : value, overload: false, decimals: after - power };
}

function wrong(at: number, what: string, todo: string): Parsed {
  return { ok: false, at, what, todo };
}
