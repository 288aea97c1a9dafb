import { PREFERRED_SERIES } from './preferred-series.ts';

/** Powers of ten behind the letters; R and S are the older forms of Y and X, H of B. */
const POWERS: Readonly<Record<string, number>> = {
  Z: -3,
  Y: -2,
  R: -2,
  X: -1,
  S: -1,
  A: 0,
  B: 1,
  H: 1,
  C: 2,
  D: 3,
  E: 4,
  F: 5,
};

export type ReadEia96 =
  | { readonly ok: true; readonly ohms: number }
  | { readonly ok: false; readonly at: number; readonly what: string; readonly todo: string };

/**
 * Reads a three-character EIA-96 resistor mark: two digits are the place in E96 (01 to 96), the
 * letter is the power of ten. `01C` is 10 kohm, 1 % by definition. EIA-96, seen second-hand.
 */
export function readEia96(text: string): ReadEia96 {
  const match = /^(\d{2})([A-Za-z])$/.exec(text);
  if (match === null) {
    const good = /^\d{0,2}/.exec(text)?.[0].length ?? 0;
    return no(good, 'An EIA-96 mark is two digits and one letter', 'Type it like 01C or 68X.');
  }
  const place = Number(match[1]);
  const letter = (match[2] ?? '').toUpperCase();
  const hundreds = PREFERRED_SERIES.E96[place - 1];
  if (hundreds === undefined) {
    return no(0, `EIA-96 has no place ${match[1]}`, 'Places run from 01 to 96; look at it again.');
  }
  const power = POWERS[letter];
  if (power === undefined) {
    const letters = 'Z, Y or R, X or S, A, B or H, C, D, E and F';
    return no(2, `${letter} is no EIA-96 multiplier`, `The letters are ${letters}.`);
  }
  return { ok: true, ohms: Number(`${hundreds}e${power}`) };
}

function no(at: number, what: string, todo: string): ReadEia96 {
  return { ok: false, at, what, todo };
}
