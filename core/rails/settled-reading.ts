/** One showing of a meter, with the time in milliseconds at which it was read. */
export interface Showing {
  readonly value: number | null;
  readonly overload: boolean;
  readonly atMs: number;
}

/** How long a meter has to stand still before its reading is taken (common practice, no source). */
const STILL_MS = 1500;
const LEAST_SHOWINGS = 4;
/** Standing still: within this share of the reading, or these base units (common practice, no source). */
const STILL_SHARE = 0.005;
const STILL_FLOOR = { volts: 0.005, diode: 0.005, ohms: 0.05 } as const;
/** Readings this small are tips in the air. */
const NOTHING_V = 0.02;

/**
 * The reading that a meter has settled on, for hands that hold two probes; null while it still moves,
 * or shows nothing but tips in the air. Over range is what open tips show in ohms and diode: it is
 * never taken by itself.
 * @param showings oldest first.
 */
export function settledReading(
  quantity: keyof typeof STILL_FLOOR,
  showings: readonly Showing[],
): number | null {
  const last = showings.at(-1);
  if (last === undefined || last.overload || last.value === null) return null;
  const since = last.atMs - STILL_MS;
  const span = showings.filter(({ atMs }) => atMs >= since);
  const first = showings[0];
  if (first === undefined || first.atMs > since || span.length < LEAST_SHOWINGS) return null;
  const values = span.map(({ value, overload }) => (overload ? null : value));
  if (values.some((value) => value === null)) return null;
  const numbers = values.filter((value) => value !== null);
  const low = Math.min(...numbers);
  const high = Math.max(...numbers);
  const allowed = Math.max(STILL_FLOOR[quantity], Math.abs(last.value) * STILL_SHARE);
  if (high - low > allowed) return null;
  return quantity === 'volts' && Math.abs(last.value) < NOTHING_V ? null : last.value;
}
