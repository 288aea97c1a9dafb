import { NO_BREAK_SPACE } from '../units/format.ts';
import { PREFIXES, type Unit } from '../units/unit.ts';
import { type PartKind, VALUE_UNIT } from './part-spec.ts';

/** Prefixes that the trade writes a part's figures with: nobody says 0.1 mF. */
const POWERS: Partial<Record<Unit, readonly [lowest: number, highest: number]>> = {
  F: [-12, -6],
  H: [-9, -3],
  V: [0, 3],
};

/** A part's figure as the trade writes it, to four digits: `10 µF`, `4.7 kΩ`, `1000 µF`. */
export function sayFigure(value: number, unit: Unit): string {
  const [lowest, highest] = POWERS[unit] ?? [-3, 9];
  const size = value === 0 ? 0 : Math.floor(Math.log10(Math.abs(value)) / 3 + 1e-9) * 3;
  const power = value === 0 ? 0 : Math.max(lowest, Math.min(highest, size));
  const symbol = PREFIXES.find((prefix) => prefix.power === power)?.symbol ?? '';
  const scaled = Number((value / 10 ** power).toPrecision(4));
  return unit === '' ? String(scaled) : `${scaled}${NO_BREAK_SPACE}${symbol}${unit}`;
}

/** A part's value with its unit: `10 µF`, `4.7 kΩ`. */
export function sayPartValue(value: number, kind: PartKind): string {
  return sayFigure(value, VALUE_UNIT[kind]);
}

const TYPED_UNIT = { resistor: 'ohm', capacitor: 'F', inductor: 'H' } as const;
const TYPED_PREFIXES = ['p', 'n', 'u', 'm', '', 'k', 'M', 'G'] as const;

/** A value as a person would type it beyond doubt: `22uF`, `470kohm`. */
export function typePartValue(value: number, kind: keyof typeof TYPED_UNIT): string {
  if (value === 0) return `0${TYPED_UNIT[kind]}`;
  const thousands = Math.max(-4, Math.min(3, Math.floor(Math.log10(value) / 3 + 1e-12)));
  const scaled = Number((value / 1000 ** thousands).toPrecision(6));
  return `${scaled}${TYPED_PREFIXES[thousands + 4]}${TYPED_UNIT[kind]}`;
}
