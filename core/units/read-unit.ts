import { UNIT_WORDS, type Unit } from './unit.ts';

const POWERS: Readonly<Record<string, number>> = {
  p: -12,
  n: -9,
  u: -6,
  µ: -6,
  μ: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
};

/** Spellings of a unit, longest first. `R` for ohms as on schematics. */
const SPELLINGS: readonly (readonly [RegExp, Unit])[] = [
  [/^wh/i, 'Wh'],
  [/^ah/i, 'Ah'],
  [/^hz/i, 'Hz'],
  [/^ohms?/i, 'Ω'],
  [/^[Ω\u2126]/, 'Ω'],
  [/^r/i, 'Ω'],
  [/^volts?/i, 'V'],
  [/^amps?/i, 'A'],
  [/^watts?/i, 'W'],
  [/^v/i, 'V'],
  [/^a/i, 'A'],
  [/^w/i, 'W'],
  [/^sec/i, 's'],
  [/^s/i, 's'],
  [/^f/i, 'F'],
  [/^h/i, 'H'],
];

/** Largest power of a prefix that makes sense for typing a unit. */
const HIGHEST: Readonly<Record<Unit, number>> = {
  V: 3,
  A: 3,
  W: 3,
  Ω: 9,
  Wh: 3,
  Ah: 3,
  s: 0,
  Hz: 9,
  F: 0,
  H: 0,
  '': 9,
};

/** The power that a letter inside digits stands for, or null when it stands for nothing here. */
export function letterPower(letter: string, unit: Unit): number | null {
  const power = POWERS[letter];
  if (power !== undefined && power <= HIGHEST[unit]) return power;
  if (unit === 'Ω' && /[rΩ\u2126]/i.test(letter)) return 0;
  if (unit !== '' && unit.length === 1 && letter.toUpperCase() === unit.toUpperCase()) return 0;
  return null;
}

export type Suffix = { readonly power: number } | { at: number; what: string; todo: string };

/** Reads an optional prefix and unit; `at` of a failure counts from the start of `text`. */
export function readUnit(text: string, unit: Unit, prefixAllowed: boolean): Suffix {
  if (text === '') return { power: 0 };
  const bare = unitAt(text, unit, 0);
  if (bare !== null) return bare;
  const power = POWERS[text.charAt(0)];
  if (power === undefined || !prefixAllowed) {
    return { at: 0, what: `"${text}" is not understood here`, todo: example(unit) };
  }
  if (power > HIGHEST[unit]) {
    const milli = text.charAt(0) === 'M' ? ' For milli write a small m.' : '';
    return {
      at: 0,
      what: `"${text.charAt(0)}" is too large a prefix for ${UNIT_WORDS[unit]}`,
      todo: `${example(unit)}${milli}`,
    };
  }
  if (text.length === 1) return { power };
  const name = text.slice(1).trimStart();
  const at = text.length - name.length;
  return (
    unitAt(name, unit, power, at) ?? {
      at,
      what: `"${name}" is not a unit`,
      todo: example(unit),
    }
  );
}

/** The unit at the start of `text`, null when there is none, a failure when it is another one. */
function unitAt(text: string, unit: Unit, power: number, offset = 0): Suffix | null {
  for (const [spelling, meant] of SPELLINGS) {
    const match = spelling.exec(text)?.[0];
    if (match === undefined) continue;
    const left = text.slice(match.length);
    // "f" of "foo" is no farad: only a whole word names a unit.
    if (/^[\p{L}\d]/u.test(left)) continue;
    if (meant !== unit) {
      return {
        at: offset,
        what: `This is in ${UNIT_WORDS[meant]}, and ${UNIT_WORDS[unit]} are expected here`,
        todo: example(unit),
      };
    }
    if (left !== '') {
      return {
        at: offset + match.length + (left.length - left.trimStart().length),
        what: `"${left.trim()}" is left over after the unit`,
        todo: example(unit),
      };
    }
    return { power };
  }
  return null;
}

/** What to do when a value does not read: how this unit is typed. */
export function example(unit: Unit): string {
  const examples: Readonly<Record<Unit, string>> = {
    V: 'Type volts like 5, 0.85 V, 12 mV or 3V3.',
    A: 'Type amps like 0.231, 0.231 A or 231 mA.',
    W: 'Type watts like 4.6 or 850 mW.',
    Ω: 'Type ohms like 0.4, 470, 4k7, 4R7 or 2.2 M.',
    Wh: 'Type watt-hours like 1.5 or 20 mWh.',
    Ah: 'Type amp-hours like 1.5 or 200 mAh.',
    s: 'Type seconds like 6, 0.5 or 20 ms.',
    Hz: 'Type hertz like 50 or 32.768 k.',
    F: 'Type farads like 100n, 4u7 or 22 µF.',
    H: 'Type henries like 2u2, 470n or 10 µH.',
    '': 'Type a number like 3 or 0.5.',
  };
  return examples[unit];
}
