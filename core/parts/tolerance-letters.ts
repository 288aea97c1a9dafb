/** A tolerance as offsets from nominal: in per cent, or in farads for small capacitors. */
export interface Tolerance {
  readonly low: number;
  readonly high: number;
  readonly in: 'percent' | 'farads';
}

export function percentTolerance(percent: number): Tolerance {
  return { low: -percent, high: percent, in: 'percent' };
}

const PERCENT: Readonly<Record<string, number>> = {
  B: 0.1,
  C: 0.25,
  D: 0.5,
  F: 1,
  G: 2,
  H: 3,
  J: 5,
  K: 10,
  M: 20,
};

const SMALL_CAPACITOR_PF: Readonly<Record<string, number>> = { B: 0.1, C: 0.25, D: 0.5 };

/** Below this, the letters B, C and D are picofarads and not per cent. */
const SMALL_BELOW_F = 10e-12;

/**
 * What a tolerance letter means on a part; null when the letter means nothing there. For capacitors
 * below 10 pF, B, C and D are absolute. IEC 60062 and the EIA lists, both seen second-hand.
 */
export function toleranceOfLetter(
  letter: string,
  kind: 'resistor' | 'capacitor' | 'inductor',
  nominal: number | null,
): Tolerance | null {
  if (kind === 'capacitor') {
    if (letter === 'Z') return { low: -20, high: 80, in: 'percent' };
    const small = SMALL_CAPACITOR_PF[letter];
    if (small !== undefined && nominal !== null && nominal < SMALL_BELOW_F) {
      return { low: -small * 1e-12, high: small * 1e-12, in: 'farads' };
    }
  }
  const percent = PERCENT[letter];
  return percent === undefined ? null : percentTolerance(percent);
}

/** Lowest and highest value that a tolerance allows around a nominal, in the nominal's unit. */
export function toleranceBand(
  nominal: number,
  tolerance: Tolerance,
): readonly [low: number, high: number] {
  if (tolerance.in === 'farads') return [nominal + tolerance.low, nominal + tolerance.high];
  return [nominal * (1 + tolerance.low / 100), nominal * (1 + tolerance.high / 100)];
}

/** `±10 %`, `+80/−20 %`, `±0.25 pF`. */
export function sayTolerance(tolerance: Tolerance): string {
  const scale = tolerance.in === 'farads' ? 1e12 : 1;
  const unit = tolerance.in === 'farads' ? 'pF' : '%';
  const show = (value: number) => String(Number((Math.abs(value) * scale).toPrecision(6)));
  if (Math.abs(tolerance.low + tolerance.high) < 1e-18) return `±${show(tolerance.high)} ${unit}`;
  return `+${show(tolerance.high)}/\u2212${show(tolerance.low)} ${unit}`;
}
