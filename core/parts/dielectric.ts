/** Class 1 ceramic: capacitance runs straight with temperature. */
export interface Class1 {
  readonly class: 1;
  readonly code: string;
  /** Slope in ppm per kelvin, and how far a part's slope may be from it. */
  readonly slopePpm: number;
  readonly slopeTolerancePpm: number;
}

/** Class 2 (and 3) ceramic: a temperature range and how far capacitance may stray in it. */
export interface Class2 {
  readonly class: 2;
  readonly code: string;
  readonly lowC: number;
  readonly highC: number;
  readonly changeLowPercent: number;
  readonly changeHighPercent: number;
}

export type Dielectric = Class1 | Class2;

// EIA-198 tables, seen second-hand.
const SLOPE: Readonly<Record<string, number>> = {
  C: 0,
  B: 0.3,
  L: 0.8,
  A: 0.9,
  M: 1.0,
  P: 1.5,
  R: 2.2,
  S: 3.3,
  T: 4.7,
  V: 5.6,
  U: 7.5,
};
const CLASS_1_FACTOR: Readonly<Record<string, number>> = {
  0: -1,
  1: -10,
  2: -100,
  3: -1000,
  4: 1,
  6: 10,
  7: 100,
  8: 1000,
};
const SLOPE_TOLERANCE: Readonly<Record<string, number>> = {
  G: 30,
  H: 60,
  J: 120,
  K: 250,
  L: 500,
  M: 1000,
  N: 2500,
};
const LOW_C: Readonly<Record<string, number>> = { X: -55, Y: -30, Z: 10 };
const HIGH_C: Readonly<Record<string, number>> = { 2: 45, 4: 65, 5: 85, 6: 105, 7: 125, 8: 150 };
const CHANGE: Readonly<Record<string, readonly [low: number, high: number]>> = {
  A: [-1, 1],
  B: [-1.5, 1.5],
  C: [-2.2, 2.2],
  D: [-3.3, 3.3],
  E: [-4.7, 4.7],
  F: [-7.5, 7.5],
  P: [-10, 10],
  R: [-15, 15],
  S: [-22, 22],
  T: [-33, 22],
  U: [-56, 22],
  V: [-82, 22],
};

/**
 * What an EIA-198 ceramic code means (`X5R`, `C0G`; `NP0` and `NPO` are C0G); null when it is none.
 */
export function readDielectric(text: string): Dielectric | null {
  const typed = text.toUpperCase();
  const code = /^(NP[0O]|C[0O]G)$/.test(typed) ? 'C0G' : typed;
  const [first = '', digit = '', last = ''] = code;
  if (code.length !== 3) return null;
  const lowC = LOW_C[first];
  const highC = HIGH_C[digit];
  const change = CHANGE[last];
  if (lowC !== undefined && highC !== undefined && change !== undefined) {
    const [changeLowPercent, changeHighPercent] = change;
    return { class: 2, code, lowC, highC, changeLowPercent, changeHighPercent };
  }
  const slope = SLOPE[first];
  const factor = CLASS_1_FACTOR[digit];
  const slopeTolerancePpm = SLOPE_TOLERANCE[last];
  if (slope === undefined || factor === undefined || slopeTolerancePpm === undefined) return null;
  const slopePpm = slope === 0 ? 0 : Number((slope * factor).toPrecision(6));
  return { class: 1, code, slopePpm, slopeTolerancePpm };
}

/** Whether a text has the form of a ceramic code, so that a wrong letter in it can be named. */
export function looksLikeDielectric(text: string): boolean {
  return /^[XYZ]\d[A-Z]$/i.test(text);
}

/** Names the character of a class 2 code that no EIA-198 table holds; null when all are sound. */
export function wrongDielectricCharacter(
  text: string,
): { readonly at: number; readonly what: string } | null {
  const [first = '', digit = '', last = ''] = text.toUpperCase();
  if (LOW_C[first] === undefined) return { at: 0, what: `No ceramic class begins with ${first}` };
  if (HIGH_C[digit] === undefined) {
    return { at: 1, what: `${digit} is no upper temperature: 2, 4, 5, 6, 7 and 8 are` };
  }
  if (CHANGE[last] === undefined) {
    return { at: 2, what: `${last} is no change of capacitance: A to F, P and R to V are` };
  }
  return null;
}

/** `−55 to 85 °C, ±15 %` or `0 ±30 ppm/K`. */
export function sayDielectric(dielectric: Dielectric): string {
  if (dielectric.class === 1) {
    return `${signed(dielectric.slopePpm)} ±${dielectric.slopeTolerancePpm} ppm/K`;
  }
  const { lowC, highC, changeLowPercent: low, changeHighPercent: high } = dielectric;
  const change = -low === high ? `±${high} %` : `+${high}/${signed(low)} %`;
  return `${signed(lowC)} to ${highC} °C, ${change}`;
}

/**
 * Whether `donor` is at least as steady as `original`: its temperature range covers the original's
 * and it changes no more in it. Class 1 is never worse than class 2.
 */
export function isClassNoWorse(donor: Dielectric, original: Dielectric): boolean {
  if (donor.class === 1 && original.class === 2) return true;
  if (donor.class === 2 && original.class === 1) return false;
  if (donor.class === 1 && original.class === 1) {
    return (
      Math.abs(donor.slopePpm - original.slopePpm) + donor.slopeTolerancePpm <=
      original.slopeTolerancePpm
    );
  }
  if (donor.class !== 2 || original.class !== 2) return false;
  return (
    donor.lowC <= original.lowC &&
    donor.highC >= original.highC &&
    donor.changeLowPercent >= original.changeLowPercent &&
    donor.changeHighPercent <= original.changeHighPercent
  );
}

function signed(value: number): string {
  return value < 0 ? `\u2212${-value}` : String(value);
}
