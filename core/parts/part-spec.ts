import type { Unit } from '../units/unit.ts';
import type { ChipCase } from './case-code.ts';
import type { Tolerance } from './tolerance-letters.ts';

export const PART_KINDS = [
  'resistor',
  'capacitor',
  'inductor',
  'bead',
  'diode',
  'zener',
  'suppressor',
  'transistor',
  'fuse',
  'thermistor',
  'varistor',
  'crystal',
  'chip',
  'connector',
] as const;
export type PartKind = (typeof PART_KINDS)[number];

/** How a capacitor is made. */
export type Technology = 'ceramic' | 'polymer' | 'aluminium' | 'tantalum' | 'film';

/** What is known of a part. Null = not known. All in base units. */
export interface PartSpec {
  readonly kind: PartKind | null;
  /** What sets it apart within its kind: `n-channel`, `Schottky`, `LED`, `resettable`. */
  readonly variant: string | null;
  readonly designator: string | null;
  /** Ohms, farads, henries, hertz; for a fuse amps, for a zener, suppressor or varistor volts. */
  readonly value: number | null;
  readonly tolerance: Tolerance | null;
  readonly ratedV: number | null;
  readonly ratedA: number | null;
  readonly ratedW: number | null;
  readonly technology: Technology | null;
  /** EIA-198 code of a ceramic, upper case. */
  readonly dielectric: string | null;
  readonly esrOhm: number | null;
  readonly chipCase: ChipCase | null;
  /** Any other case, as typed in upper case: `SOT-23`, `7343`. */
  readonly otherCase: string | null;
  /** Type or top mark of a chip, transistor or diode. */
  readonly marking: string | null;
}

export const UNKNOWN_PART: PartSpec = {
  kind: null,
  variant: null,
  designator: null,
  value: null,
  tolerance: null,
  ratedV: null,
  ratedA: null,
  ratedW: null,
  technology: null,
  dielectric: null,
  esrOhm: null,
  chipCase: null,
  otherCase: null,
  marking: null,
};

/** Unit of a part's value. */
export const VALUE_UNIT: Readonly<Record<PartKind, Unit>> = {
  resistor: 'Ω',
  capacitor: 'F',
  inductor: 'H',
  bead: 'Ω',
  diode: '',
  zener: 'V',
  suppressor: 'V',
  transistor: '',
  fuse: 'A',
  thermistor: 'Ω',
  varistor: 'V',
  crystal: 'Hz',
  chip: '',
  connector: '',
};

const BY_DESIGNATOR: readonly (readonly [RegExp, PartKind])[] = [
  [/^(FB)\d/i, 'bead'],
  [/^(CN|JP|J|P)\d/i, 'connector'],
  [/^(TC|CP|PC|C)\d/i, 'capacitor'],
  [/^(NTC|PTC|TH|RT)\d/i, 'thermistor'],
  [/^(RV|MOV)\d/i, 'varistor'],
  [/^(RN|R)\d/i, 'resistor'],
  [/^L\d/i, 'inductor'],
  [/^(ZD|DZ)\d/i, 'zener'],
  [/^(TVS)\d/i, 'suppressor'],
  [/^(LED|D)\d/i, 'diode'],
  [/^(Q|T)\d/i, 'transistor'],
  [/^(FU|PF|F)\d/i, 'fuse'],
  [/^(Y|X)\d/i, 'crystal'],
  [/^(U|IC)\d/i, 'chip'],
];

/** The kind that a designator's letters stand for (common practice, no source), or null. */
export function kindOfDesignator(designator: string): PartKind | null {
  return BY_DESIGNATOR.find(([pattern]) => pattern.test(designator))?.[1] ?? null;
}
