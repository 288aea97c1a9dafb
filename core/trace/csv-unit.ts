/** What a column of a trace file can hold. */
export type FileQuantity = 'time' | 'volts' | 'amps' | 'watts';

/** A unit as files write it: what it measures, and the factor to s, V, A or W. */
export interface FileUnit {
  readonly quantity: FileQuantity | 'hertz' | 'other';
  readonly scale: number;
}

const PREFIX: Readonly<Record<string, number>> = {
  '': 1,
  n: 1e-9,
  u: 1e-6,
  m: 1e-3,
  k: 1e3,
};
/** Micro in its two code points, and what is left of it in a file of another code page. */
const MICRO = /[\u00b5\u03bc\ufffd]/g;
const WORDS: Readonly<Record<string, FileUnit>> = {
  sec: { quantity: 'time', scale: 1 },
  secs: { quantity: 'time', scale: 1 },
  second: { quantity: 'time', scale: 1 },
  seconds: { quantity: 'time', scale: 1 },
  msec: { quantity: 'time', scale: 1e-3 },
  millis: { quantity: 'time', scale: 1e-3 },
  millisecond: { quantity: 'time', scale: 1e-3 },
  milliseconds: { quantity: 'time', scale: 1e-3 },
  usec: { quantity: 'time', scale: 1e-6 },
  micros: { quantity: 'time', scale: 1e-6 },
  microsecond: { quantity: 'time', scale: 1e-6 },
  microseconds: { quantity: 'time', scale: 1e-6 },
  nanoseconds: { quantity: 'time', scale: 1e-9 },
  min: { quantity: 'time', scale: 60 },
  mins: { quantity: 'time', scale: 60 },
  minutes: { quantity: 'time', scale: 60 },
  h: { quantity: 'time', scale: 3600 },
  hours: { quantity: 'time', scale: 3600 },
  hz: { quantity: 'hertz', scale: 1 },
  khz: { quantity: 'hertz', scale: 1e3 },
  mhz: { quantity: 'hertz', scale: 1e6 },
  'sa/s': { quantity: 'hertz', scale: 1 },
  'ksa/s': { quantity: 'hertz', scale: 1e3 },
  's/s': { quantity: 'hertz', scale: 1 },
  sps: { quantity: 'hertz', scale: 1 },
  'samples/s': { quantity: 'hertz', scale: 1 },
  'sample/s': { quantity: 'hertz', scale: 1 },
};
/** Names of a meter's function, written where others write a unit. */
const FUNCTIONS: Readonly<Record<string, FileQuantity>> = {
  dcv: 'volts',
  vdc: 'volts',
  'volt:dc': 'volts',
  'dc voltage': 'volts',
  'voltage dc': 'volts',
  voltage: 'volts',
  dci: 'amps',
  dca: 'amps',
  adc: 'amps',
  'curr:dc': 'amps',
  'dc current': 'amps',
  'current dc': 'amps',
  current: 'amps',
};
const STEMS: Readonly<Record<string, FileQuantity>> = {
  s: 'time',
  v: 'volts',
  volt: 'volts',
  volts: 'volts',
  a: 'amps',
  amp: 'amps',
  amps: 'amps',
  ampere: 'amps',
  amperes: 'amps',
  w: 'watts',
  watt: 'watts',
  watts: 'watts',
};
const LONG_PREFIX: readonly (readonly [string, string])[] = [
  ['milli', 'm'],
  ['micro', 'u'],
  ['nano', 'n'],
  ['kilo', 'k'],
];
const OTHER = new Set([
  'mah',
  'ah',
  'wh',
  'mwh',
  'kwh',
  'c',
  '°c',
  'f',
  'ohm',
  'ohms',
  'Ω',
  'kohm',
  'db',
  'dbm',
  '%',
  'j',
  'va',
  'var',
]);

/** Reads a cell that tells a meter's function (`DCI`, `DC Voltage`) or a unit; null when it is neither. */
export function readFunctionOrUnit(cell: string): FileUnit | null {
  const word = cell.trim().toLowerCase();
  const named = Object.hasOwn(FUNCTIONS, word) ? FUNCTIONS[word] : undefined;
  return named === undefined ? readFileUnit(cell) : { quantity: named, scale: 1 };
}

/**
 * Reads a unit such as `mA`, `µA`, `V DC`, `ms`, `Seconds`; null when the text is none. `M` before
 * a unit is read as milli: by SCPI-1999 `MA` and `MV` are milliamp and millivolt, and no bench log
 * has megavolts.
 */
export function readFileUnit(text: string): FileUnit | null {
  let word = text.trim().replace(MICRO, 'u').toLowerCase();
  if (word === '') return null;
  if (OTHER.has(word)) return { quantity: 'other', scale: 1 };
  // `V DC`, `DC A`, `ADC`, `mVAC` ...: the kind of current says nothing of the scale.
  word = word
    .replace(/[ _.-]*\b[ad]c\b[ _.-]*/g, '')
    .replace(/^([munk]?[va])_?[ad]c$/, '$1')
    .trim();
  const known = Object.hasOwn(WORDS, word) ? WORDS[word] : undefined;
  if (known !== undefined) return known;
  for (const [long, short] of LONG_PREFIX) {
    if (word.startsWith(long)) {
      word = short + word.slice(long.length).trim();
      break;
    }
  }
  const bare = Object.hasOwn(STEMS, word) ? STEMS[word] : undefined;
  if (bare !== undefined) return { quantity: bare, scale: 1 };
  const stem = word.slice(1);
  const quantity = Object.hasOwn(STEMS, stem) ? STEMS[stem] : undefined;
  const scale = Object.hasOwn(PREFIX, word[0]!) ? PREFIX[word[0]!] : undefined;
  return quantity === undefined || scale === undefined ? null : { quantity, scale };
}
