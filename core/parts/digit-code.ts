import type { CodedKind, ReadMark } from './letter-code.ts';

/** Unit in which digits on a part count: ohms, picofarads, microhenries. */
const BASE_POWER: Readonly<Record<CodedKind, number>> = {
  resistor: 0,
  capacitor: -12,
  inductor: -6,
};

/**
 * Reads digits on a part: the last is the power of ten, those before are the value, in ohms
 * (three digits, or four on 1 % parts), picofarads (three) or microhenries (three). On capacitors a
 * last digit 8 is times 0.01 and 9 times 0.1 (EIA-198). Two digits on a capacitor are picofarads
 * as they stand. A tolerance letter may follow: `103J`. Null when the text is no such code.
 * IEC 60062 and EIA-198, seen second-hand.
 */
export function readDigitCode(text: string, kind: CodedKind): ReadMark | null {
  const match = /^(\d{2,4})([A-Z]?)$/.exec(text);
  if (match === null) return null;
  const [, digits = '', letter = ''] = match;
  if (digits.length === 2) {
    if (digits.startsWith('0')) return null;
    return kind === 'capacitor' ? { value: Number(`${digits}e-12`), letter } : null;
  }
  if (digits.length === 4 && kind !== 'resistor') return null;
  const significant = digits.slice(0, -1);
  if (significant.startsWith('0') && !/^0+$/.test(digits)) return null;
  const last = Number(digits.slice(-1));
  const power = kind === 'capacitor' && last >= 8 ? last - 10 : last;
  return { value: Number(`${Number(significant)}e${power + BASE_POWER[kind]}`), letter };
}

/** Writes a capacitance in farads as EIA-198 digits (`226`), or null when two digits do not hold it. */
export function writeCapacitorDigits(farads: number): string | null {
  const picofarads = farads * 1e12;
  if (!(picofarads > 0)) return null;
  const power = Math.floor(Math.log10(picofarads) + 1e-12) - 1;
  const significant = Number((picofarads / 10 ** power).toPrecision(9));
  if (!Number.isInteger(significant) || power < -2 || power > 7) return null;
  return `${significant}${power < 0 ? power + 10 : power}`;
}
