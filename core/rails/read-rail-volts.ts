/** A cell of volts as typed, taken apart: what is nominal, and the tolerance that stands with it. */
export interface RailVoltsText {
  readonly nominal: string;
  /** Empty when the cell states none. */
  readonly tolerance: string;
  /** The two ends, where the cell is a range. */
  readonly range: readonly [string, string] | null;
}

/** Takes `5 V`, `1.05 V ±5%`, `5.0 V +/- 0.1 V`, `4.75 to 5.25` and `4.75...5.25 V` apart. */
export function readRailVolts(text: string): RailVoltsText {
  const toleranced = /^(.+?)\s*(?:±|\+\/?-|\+\/?\u2212)\s*(.+)$/.exec(text);
  if (toleranced !== null) {
    const [, nominal = '', tolerance = ''] = toleranced;
    return { nominal, tolerance, range: null };
  }
  const range =
    /^(\d+(?:[.,]\d+)?\s*m?V?)\s*(?:to|\.{2,3}|…|[-\u2013\u2212])\s*(\d+(?:[.,]\d+)?\s*m?V?)$/i.exec(
      text,
    );
  if (range === null) return { nominal: text, tolerance: '', range: null };
  const [, low = '', high = ''] = range;
  return { nominal: '', tolerance: '', range: [low, high] };
}

/** The volts that a rail's own name tells (`3V3_AON`, `12V-ALW`, `VDD_1V05`); null for none or more than one. */
export function voltsInName(name: string): number | null {
  const found = [...name.matchAll(/(?<![\dA-Za-z.])([NM-]?)(\d{1,2})V(\d{1,2})?(?![\dA-Za-z])/gi)];
  const [match] = found;
  if (match === undefined || found.length > 1) return null;
  const [, sign = '', whole = '', fraction = ''] = match;
  const volts = Number(`${whole}.${fraction === '' ? '0' : fraction}`);
  if (volts === 0) return null;
  return sign === '' ? volts : -volts;
}
