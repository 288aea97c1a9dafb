import { type FormatOptions, formatQuantity, type QuantityParts, quantityParts } from './format.ts';
import type { Unit } from './unit.ts';

/** Unit of each quantity that an instrument reads. A diode reading is the volts across it. */
export const UNIT_OF = {
  volts: 'V',
  amps: 'A',
  ohms: 'Ω',
  diode: 'V',
  continuity: 'Ω',
} as const satisfies Record<string, Unit>;

/** What a reading has to tell to be shown. A stored reading is one. */
export interface ShownReading {
  readonly quantity: keyof typeof UNIT_OF;
  readonly value: number | null;
  readonly overload: boolean;
  readonly decimals: number | null;
}

/** A reading as one string; volts and diode readings keep their base unit, as meters show them. */
export function formatReading(reading: ShownReading): string {
  return formatQuantity(reading.value, UNIT_OF[reading.quantity], reading.decimals, how(reading));
}

/** A reading as number and unit apart, for large readouts. */
export function readingParts(reading: ShownReading): QuantityParts {
  return quantityParts(reading.value, UNIT_OF[reading.quantity], reading.decimals, how(reading));
}

/** What was expected: `0.81 V to 0.89 V`, `at least 10 kΩ`, `at most 1 A`; a dash when nothing was. */
export function formatExpected(
  low: number | null,
  high: number | null,
  quantity: keyof typeof UNIT_OF,
): string {
  const show = (value: number | null) =>
    formatQuantity(value, UNIT_OF[quantity], null, prefixOf(quantity));
  if (low !== null && high !== null)
    return low === high ? show(low) : `${show(low)} to ${show(high)}`;
  if (low !== null) return `at least ${show(low)}`;
  if (high !== null) return `at most ${show(high)}`;
  return show(null);
}

function how(reading: ShownReading): FormatOptions {
  return { ...prefixOf(reading.quantity), overload: reading.overload };
}

function prefixOf(quantity: keyof typeof UNIT_OF): FormatOptions {
  return quantity === 'volts' || quantity === 'diode' ? { prefix: 0 } : {};
}
