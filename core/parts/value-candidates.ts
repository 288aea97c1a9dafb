import { readDigitCode } from './digit-code.ts';
import { readEia96 } from './eia-96.ts';
import { type CodedKind, readLetterCode } from './letter-code.ts';
import { numberOf } from './part-quantity.ts';
import { isPreferred } from './preferred-series.ts';
import { percentTolerance, type Tolerance, toleranceOfLetter } from './tolerance-letters.ts';

/** One thing that a value word may mean. */
export interface ValueCandidate {
  readonly kind: CodedKind;
  /** Ohms, farads or henries. */
  readonly value: number;
  readonly tolerance: Tolerance | null;
  /** By which rule it reads so. */
  readonly by: string;
  /** How usual this reading is, 0 to 1 (common practice, no source). */
  readonly weight: number;
}

const KINDS: readonly CodedKind[] = ['resistor', 'capacitor', 'inductor'];
const LETTER_CODE = 'IEC 60062 letter code';
const DIGIT_CODE: Readonly<Record<CodedKind, string>> = {
  resistor: 'IEC 60062 digits, ohms',
  capacitor: 'EIA-198 digits, picofarads',
  inductor: 'digits, microhenries (common practice, no source)',
};
const PREFIX_POWER: Readonly<Record<string, number>> = {
  p: -12,
  P: -12,
  N: -9,
  U: -6,
  n: -9,
  u: -6,
  µ: -6,
  μ: -6,
  m: -3,
  k: 3,
  K: 3,
  M: 6,
  G: 9,
  R: 0,
  r: 0,
};

/** Everything that a value word without a unit may mean, most usual first. */
export function valueCandidates(word: string): readonly ValueCandidate[] {
  const found = [
    ...plainWithPrefix(word),
    ...letterCodes(word),
    ...digitCodes(word),
    ...eia96(word),
    ...plainOhms(word),
  ];
  const seen = new Set<string>();
  return found
    .sort((a, b) => b.weight - a.weight)
    .filter(({ kind, value }) => {
      const key = `${kind} ${value.toPrecision(9)}`;
      return seen.has(key) ? false : seen.add(key);
    });
}

function plainWithPrefix(word: string): ValueCandidate[] {
  const match = /^(\d*[.,]?\d+|\d+[.,])([pnuPNUµμmkKMGRr])$/.exec(word);
  if (match === null) return [];
  const [, digits = '', prefix = ''] = match;
  const value = numberOf(digits, PREFIX_POWER[prefix] ?? 0);
  const by = 'number and prefix';
  const as = (kind: CodedKind, weight: number) => ({ kind, value, tolerance: null, by, weight });
  if (/[pnuµμ]/i.test(prefix)) {
    const coil = /p/i.test(prefix) ? [] : [as('inductor', 0.5)];
    return [as('capacitor', 0.9), ...coil];
  }
  if (prefix === 'm') return [as('resistor', 0.7), as('inductor', 0.3)];
  return [as('resistor', usual(value))];
}

function letterCodes(word: string): ValueCandidate[] {
  return KINDS.flatMap((kind) => {
    const mark = readLetterCode(word, kind) ?? pointR(word, kind);
    if (mark === null) return [];
    const tolerance = mark.letter === '' ? null : toleranceOfLetter(mark.letter, kind, mark.value);
    if (mark.letter !== '' && tolerance === null) return [];
    const isPoint = /r/i.test(word);
    const weight =
      kind === 'resistor' ? usual(mark.value) : isPoint ? 0.2 : kind === 'capacitor' ? 0.9 : 0.5;
    return [{ kind, value: mark.value, tolerance, by: LETTER_CODE, weight }];
  });
}

/** On capacitors and coils R is the point in picofarads and microhenries. */
function pointR(word: string, kind: CodedKind): { value: number; letter: string } | null {
  if (kind === 'resistor') return null;
  const match = /^(\d*)R(\d+)([A-Z]?)$/.exec(word);
  if (match === null) return null;
  const [, whole = '', fraction = '', letter = ''] = match;
  const power = kind === 'capacitor' ? -12 : -6;
  return { value: Number(`${whole === '' ? '0' : whole}.${fraction}e${power}`), letter };
}

function digitCodes(word: string): ValueCandidate[] {
  return KINDS.flatMap((kind) => {
    const mark = readDigitCode(word, kind);
    if (mark === null) return [];
    const tolerance = mark.letter === '' ? null : toleranceOfLetter(mark.letter, kind, mark.value);
    if (mark.letter !== '' && tolerance === null) return [];
    if (kind === 'inductor' && mark.value > 1) return [];
    // Four digits are a 1 % resistor's; its first three are a preferred number or it is no mark.
    const isFour = /^\d{4}/.test(word);
    if (isFour && mark.value > 0 && !isStandardResistor(mark.value)) return [];
    const weight = isFour ? 1 : digitWeight(word, kind);
    const by = isFour ? 'IEC 60062 four digits' : DIGIT_CODE[kind];
    return [{ kind, value: mark.value, tolerance, by, weight }];
  });
}

/** Letters follow digits on capacitors; 47 and 470 with one are more often ohms than picofarads. */
function digitWeight(word: string, kind: CodedKind): number {
  if (kind === 'inductor') return 0.2;
  const hasLetter = /[A-Z]$/.test(word);
  if (kind === 'resistor') return hasLetter ? 0.4 : 0.6;
  if (!hasLetter) return 0.8;
  if (/^\d\d[A-Z]/.test(word)) return 0.4;
  return /^\d\d0[KM]/.test(word) ? 0.65 : 0.8;
}

function eia96(word: string): ValueCandidate[] {
  const mark = readEia96(word);
  if (!mark.ok) return [];
  return [
    {
      kind: 'resistor',
      value: mark.ohms,
      tolerance: percentTolerance(1),
      by: 'EIA-96 mark',
      weight: 0.9,
    },
  ];
}

/** `470` is 47 ohm on the part and 470 ohm in a sentence; `47` is only the sentence. */
function plainOhms(word: string): ValueCandidate[] {
  if (!/^\d+([.,]\d+)?$/.test(word) || /^0\d/.test(word)) return [];
  const value = numberOf(word, 0);
  const isUsual = value === 0 || (value < 1000 && isPreferred(value, 'E24'));
  const weight = isUsual ? 0.55 : /[.,]/.test(word) ? 0.3 : 0;
  return weight === 0
    ? []
    : [{ kind: 'resistor', value, tolerance: null, by: 'a plain number of ohms', weight }];
}

function isStandardResistor(ohms: number): boolean {
  return isPreferred(ohms, 'E24') || isPreferred(ohms, 'E192');
}

function usual(ohms: number): number {
  if (ohms === 0 || isPreferred(ohms, 'E24')) return 1;
  return isPreferred(ohms, 'E96') || ohms < 1 ? 0.75 : 0.5;
}
