/** Preferred number series of IEC 60063, by how many values a decade holds. */
export const SERIES_NAMES = ['E6', 'E12', 'E24', 'E48', 'E96', 'E192'] as const;
export type SeriesName = (typeof SERIES_NAMES)[number];

const E24 = [
  10, 11, 12, 13, 15, 16, 18, 20, 22, 24, 27, 30, 33, 36, 39, 43, 47, 51, 56, 62, 68, 75, 82, 91,
];

/**
 * Values of one decade, 10 to 91 (E6, E12, E24) or 100 to 988 (E48, E96, E192).
 * E24 and coarser follow no formula in eight places; E48 and E96 are round(100 * 10^(i/n)) and so
 * is E192 but for 920, where the formula gives 919 (IEC 60063, values seen second-hand).
 */
export const PREFERRED_SERIES: Readonly<Record<SeriesName, readonly number[]>> = {
  E6: E24.filter((_, i) => i % 4 === 0),
  E12: E24.filter((_, i) => i % 2 === 0),
  E24,
  E48: geometric(48),
  E96: geometric(96),
  E192: geometric(192).map((value) => (value === 919 ? 920 : value)),
};

/** Tolerance that each series is meant for, in per cent (IEC 60063, seen second-hand). */
export const SERIES_TOLERANCE_PERCENT: Readonly<Record<SeriesName, number>> = {
  E6: 20,
  E12: 10,
  E24: 5,
  E48: 2,
  E96: 1,
  E192: 0.5,
};

/** Whether a positive value in any decade is one of the series' preferred numbers. */
export function isPreferred(value: number, series: SeriesName): boolean {
  const below = nearestPreferred(value, series);
  return below.some((preferred) => Math.abs(preferred / value - 1) < 1e-9);
}

/**
 * The preferred values just below and just above a positive value (the same twice when it is
 * one of them), in the value's own unit.
 */
export function nearestPreferred(
  value: number,
  series: SeriesName,
): readonly [below: number, above: number] {
  const decade = PREFERRED_SERIES[series];
  const first = decade[0] ?? 10;
  const power = Math.floor(Math.log10(value / first) + 1e-12);
  const scaled = Number((value / 10 ** power).toPrecision(12));
  const above = decade.find((candidate) => candidate >= scaled - 1e-9) ?? first * 10;
  const below = [...decade].reverse().find((candidate) => candidate <= scaled + 1e-9) ?? first;
  return [rescale(below, power), rescale(above, power)];
}

/** The coarsest series that holds the value, or null when none does. */
export function coarsestSeries(value: number): SeriesName | null {
  return SERIES_NAMES.find((series) => isPreferred(value, series)) ?? null;
}

function geometric(count: number): number[] {
  return Array.from({ length: count }, (_, i) => Math.round(100 * 10 ** (i / count)));
}

function rescale(value: number, power: number): number {
  return Number(`${value}e${power}`);
}
