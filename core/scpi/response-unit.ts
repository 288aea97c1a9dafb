/** What a unit measures, in SI base terms. `other` = a known word that is no electrical quantity. */
export type UnitOf = 'V' | 'A' | 'W' | 'OHM' | 'HZ' | 'S' | 'F' | 'CEL' | 'other';

/** A unit as glued to a reading: what it measures and the factor to its base unit. */
export interface ReplyUnit {
  readonly of: UnitOf;
  readonly factor: number;
  /** The instrument's own status letter says that this reading ran over its range. */
  readonly overload: boolean;
}

const BASES: Readonly<Record<string, UnitOf>> = {
  V: 'V',
  VDC: 'V',
  DCV: 'V',
  VAC: 'V',
  ACV: 'V',
  VOLT: 'V',
  VOLTS: 'V',
  A: 'A',
  ADC: 'A',
  DCA: 'A',
  AAC: 'A',
  AMP: 'A',
  AMPS: 'A',
  W: 'W',
  WATT: 'W',
  WATTS: 'W',
  OHM: 'OHM',
  OHMS: 'OHM',
  OHM4W: 'OHM',
  HZ: 'HZ',
  S: 'S',
  SEC: 'S',
  SECS: 'S',
  F: 'F',
  C: 'CEL',
  CEL: 'CEL',
  'RDNG#': 'other',
  '%': 'other',
};

/** Multipliers of IEEE 488.2 table 7-2 as cited by the open-source parser's unit table. */
const MULTIPLIERS: Readonly<Record<string, number>> = {
  T: 1e12,
  G: 1e9,
  MA: 1e6,
  K: 1e3,
  M: 1e-3,
  U: 1e-6,
  // The micro sign, in Latin-1 and as the two bytes of UTF-8.
  '\xb5': 1e-6,
  '\xc2\xb5': 1e-6,
  N: 1e-9,
  P: 1e-12,
};

/** The ohm sign as bytes: UTF-8 of either omega, and code page 437. */
const OMEGA = /\xce\xa9|\xe2\x84\xa6|\xea/g;

/** A status letter before the unit, as electrometers print it: N normal, O overflow. */
const WITH_STATUS = /^([NOZC])([AV](?:DC|AC)|OHM)$/;

function multiplierOf(prefix: string, of: UnitOf): number | undefined {
  const upper = /[a-z]/i.test(prefix) ? prefix.toUpperCase() : prefix;
  if (upper !== 'M' || (of !== 'OHM' && of !== 'HZ')) return MULTIPLIERS[upper];
  // Mega by the standard; a lower-case m before ohm may mean milli: a factor of 1e9 is not guessed.
  return prefix === 'M' ? 1e6 : undefined;
}

/**
 * Reads the unit glued to a reading: `V`, `mA`, `VDC`, `KOHM`, `NADC`. Undefined when the word is
 * no unit known here, or could mean two things.
 */
export function decodeUnit(written: string): ReplyUnit | undefined {
  const word = written.replaceAll(OMEGA, 'OHM').replaceAll(' ', '');
  const upper = word.replaceAll(/[a-z]+/g, (letters) => letters.toUpperCase());
  const base = BASES[upper];
  if (base !== undefined) return { of: base, factor: 1, overload: false };
  const status = WITH_STATUS.exec(upper);
  if (status !== null) return { of: BASES[status[2]!]!, factor: 1, overload: status[1] === 'O' };
  for (const length of [1, 2]) {
    const of = BASES[upper.slice(length)];
    if (of === undefined || of === 'other') continue;
    const factor = multiplierOf(word.slice(0, length), of);
    if (factor !== undefined) return { of, factor, overload: false };
  }
  return undefined;
}
