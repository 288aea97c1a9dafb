/** Units that the product shows and reads. `''` is a bare number. */
export type Unit = 'V' | 'A' | 'W' | 'Ω' | 'Wh' | 'Ah' | 's' | 'Hz' | 'F' | 'H' | '';

/** A decimal prefix by its power of ten (SI Brochure, 9th edition, table 7). */
export const PREFIXES = [
  { symbol: 'p', power: -12 },
  { symbol: 'n', power: -9 },
  { symbol: 'µ', power: -6 },
  { symbol: 'm', power: -3 },
  { symbol: '', power: 0 },
  { symbol: 'k', power: 3 },
  { symbol: 'M', power: 6 },
  { symbol: 'G', power: 9 },
] as const;
export type PrefixPower = (typeof PREFIXES)[number]['power'];

/** Powers of ten a unit is shown with at a bench: nobody reads kilovolts or millihertz there. */
export const SHOWN_POWERS: Readonly<Record<Unit, readonly [lowest: number, highest: number]>> = {
  V: [-6, 3],
  A: [-6, 0],
  W: [-6, 3],
  Ω: [-3, 9],
  Wh: [-6, 3],
  Ah: [-6, 0],
  s: [-6, 0],
  Hz: [0, 9],
  F: [-12, 0],
  H: [-9, 0],
  '': [0, 0],
};

/** What a person calls the unit in a sentence. */
export const UNIT_WORDS: Readonly<Record<Unit, string>> = {
  V: 'volts',
  A: 'amps',
  W: 'watts',
  Ω: 'ohms',
  Wh: 'watt-hours',
  Ah: 'amp-hours',
  s: 'seconds',
  Hz: 'hertz',
  F: 'farads',
  H: 'henries',
  '': 'a bare number',
};
