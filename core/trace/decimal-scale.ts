/** Largest whole number that readings are scaled to: differences of two stay exact. */
const LARGEST = 2 ** 51;
/** Most digits after the point that are looked for. */
export const MOST_DIGITS = 15;
/** Ten to the power of 0 to 15; all exact. */
export const TENS = Float64Array.from({ length: MOST_DIGITS + 1 }, (_, i) => 10 ** i);
/** About what a double costs when it is stored as it is, in bits. */
const RAW_BITS = 70;
const BITS_A_DIGIT = 3.33;

/**
 * The value as a whole number of 10^-digits when that says it to the last bit, else `NaN`. Reading
 * decimal text and dividing two whole numbers round alike (IEEE 754), so every decimal of up to
 * 15 digits passes; -0, infinities and `NaN` do not.
 */
export function wholeOf(value: number, digits: number): number {
  const ten = TENS[digits]!;
  const whole = Math.round(value * ten);
  if (whole / ten !== value || whole > LARGEST || whole < -LARGEST) return Number.NaN;
  return whole === 0 && Object.is(value, -0) ? Number.NaN : whole;
}

/**
 * The digits after the point that suit a column best, weighing values that need more digits
 * (stored raw) against digits that most values do not need; null when most are no decimals.
 */
export function decimalDigits(values: Float64Array): number | null {
  const needing = new Float64Array(MOST_DIGITS + 2);
  let numbers = 0;
  for (let i = 0; i < values.length; i += 1) {
    const value = values[i]!;
    if (Number.isNaN(value) || Object.is(value, -0)) continue;
    let digits = 0;
    while (digits <= MOST_DIGITS && Number.isNaN(wholeOf(value, digits))) digits += 1;
    needing[digits]! += 1;
    numbers += 1;
  }
  let best: number | null = null;
  let least = numbers * RAW_BITS * 0.9;
  let covered = 0;
  for (let digits = 0; digits <= MOST_DIGITS; digits += 1) {
    covered += needing[digits]!;
    const bits = covered * digits * BITS_A_DIGIT + (numbers - covered) * RAW_BITS;
    if (covered > 0 && bits < least) {
      least = bits;
      best = digits;
    }
  }
  return best ?? (numbers === 0 ? 0 : null);
}
