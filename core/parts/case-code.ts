/** A chip case: the same body has one code in inches and another in millimetres. */
export interface ChipCase {
  readonly inch: string;
  readonly metric: string;
  /** Nominal body, mm. */
  readonly lengthMm: number;
  readonly widthMm: number;
}

// Codes and bodies from case-size tables, seen second-hand; 008004 and 01005 bodies follow from their
// metric codes; 1806, 1808, 1825, 2220 and 2225 are from memory.
const CHIP_CASES: readonly ChipCase[] = [
  ['008004', '0201', 0.25, 0.125],
  ['01005', '0402', 0.4, 0.2],
  ['0201', '0603', 0.6, 0.3],
  ['0402', '1005', 1.0, 0.5],
  ['0603', '1608', 1.6, 0.8],
  ['0805', '2012', 2.0, 1.25],
  ['1206', '3216', 3.2, 1.6],
  ['1210', '3225', 3.2, 2.5],
  ['1806', '4516', 4.5, 1.6],
  ['1808', '4520', 4.5, 2.0],
  ['1812', '4532', 4.5, 3.2],
  ['1825', '4564', 4.5, 6.4],
  ['2010', '5025', 5.0, 2.5],
  ['2220', '5750', 5.7, 5.0],
  ['2225', '5763', 5.7, 6.3],
  ['2512', '6432', 6.4, 3.2],
].map(([inch, metric, lengthMm, widthMm]) => ({
  inch: String(inch),
  metric: String(metric),
  lengthMm: Number(lengthMm),
  widthMm: Number(widthMm),
}));

/** Which cases a text may mean: none, one, or an inch and a metric one that share the digits. */
export interface ReadCase {
  readonly candidates: readonly ChipCase[];
  /** True when the text itself said inch or metric. */
  readonly said: boolean;
}

/**
 * Reads a chip case code: `1206`, `3216M`, `0603in`, `0402 metric`. `0402` and `0603` alone (and
 * `0201`) name two different bodies and come back with both candidates, inch first because that is
 * how the trade says them: ask.
 */
export function readCase(text: string): ReadCase {
  const match = /^(\d{4,6})\s*(m|metric|in|inch|imp|imperial|")?$/i.exec(text.trim());
  if (match === null) return { candidates: [], said: false };
  const [, code = '', system = ''] = match;
  const inch = CHIP_CASES.filter((chip) => chip.inch === code);
  const metric = CHIP_CASES.filter((chip) => chip.metric === code);
  if (/^m/i.test(system)) return { candidates: metric, said: true };
  if (system !== '') return { candidates: inch, said: true };
  return { candidates: [...inch, ...metric], said: false };
}

/** `0603 (1608 metric, 1.6 x 0.8 mm)`. */
export function sayCase(chip: ChipCase): string {
  return `${chip.inch} (${chip.metric} metric, ${chip.lengthMm} x ${chip.widthMm} mm)`;
}
