/** Letters that stand for the decimal point and the power, by what the part is (IEC 60062). */
const POWERS = {
  resistor: { L: -3, R: 0, K: 3, M: 6, G: 9, T: 12 },
  capacitor: { p: -12, n: -9, u: -6, µ: -6, μ: -6, m: -3, F: 0 },
  inductor: { n: -9, u: -6, µ: -6, μ: -6, m: -3, H: 0 },
} as const;

export type CodedKind = keyof typeof POWERS;

/** A value read from a mark, and the tolerance letter left over after it (empty when none). */
export interface ReadMark {
  /** In ohms, farads or henries. */
  readonly value: number;
  readonly letter: string;
}

/**
 * Reads an IEC 60062 letter code: `4R7`, `R47`, `470R`, `4K7`, `2M2`, `5L0` on resistors,
 * `4n7`, `10p`, `1u0` on capacitors and inductors, with an optional tolerance letter behind
 * (`4K7J`). A small `k` is taken as K, as people type it. Null when the text is no such code.
 * IEC 60062, seen second-hand.
 */
export function readLetterCode(text: string, kind: CodedKind): ReadMark | null {
  const match = /^(\d*)([A-Za-zµμ])(\d*)([A-Z]?)$/.exec(text);
  if (match === null) return null;
  const [, whole = '', letter = '', fraction = '', tolerance = ''] = match;
  if (whole === '' && fraction === '') return null;
  const powers: Readonly<Record<string, number>> = POWERS[kind];
  const power = powers[letter] ?? (kind === 'resistor' ? relaxed(letter, powers) : undefined);
  if (power === undefined) return null;
  const digits = `${whole === '' ? '0' : whole}.${fraction === '' ? '0' : fraction}`;
  return { value: Number(`${digits}e${power}`), letter: tolerance };
}

/** People type 4k7 and 4r7; a small m is milli by SI and so no code letter for mega. */
function relaxed(letter: string, powers: Readonly<Record<string, number>>): number | undefined {
  return letter === 'k' || letter === 'r' ? powers[letter.toUpperCase()] : undefined;
}

/**
 * Writes a resistance in ohms as an IEC 60062 letter code with at least two significant digits:
 * 4700 becomes `4K7`, 0.47 `R47`, 1000 `1K0`, 47000 `47K`.
 */
export function writeLetterCode(ohms: number): string {
  if (ohms === 0) return '0R';
  const text = Number(ohms.toPrecision(4)).toString();
  const value = Number(text);
  const [letter, power] =
    value >= 1e9 ? ['G', 9] : value >= 1e6 ? ['M', 6] : value >= 1e3 ? ['K', 3] : ['R', 0];
  const scaled = Number(`${value}e${-Number(power)}`);
  if (scaled < 1) return `${letter}${scaled.toString().slice(2)}`;
  const [whole = '', fraction = ''] = scaled.toString().split('.');
  const padded = fraction === '' && whole.length < 2 ? '0' : fraction;
  return `${whole}${letter}${padded}`;
}
