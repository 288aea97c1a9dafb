const DAY = /^(\d{4})-(\d{2})(?:-(\d{2}))?$/;
const MS_A_DAY = 86_400_000;

/** The days that a typed date names, both included, as `YYYY-MM-DD`. */
export interface DaySpan {
  readonly first: string;
  readonly last: string;
}

/** Whether a word has the shape of a date, right or wrong: `2026-11` or `2026-11-25`. */
export const isLikeDay = (word: string): boolean => DAY.test(word);

/** The days of a month or of a date; null when no calendar has it (proleptic Gregorian, ISO 8601). */
export function daySpan(word: string): DaySpan | null {
  const match = DAY.exec(word);
  if (match === null) return null;
  const [, year = '', month = '', day] = match;
  const first = Date.UTC(Number(year), Number(month) - 1, day === undefined ? 1 : Number(day));
  const last = day === undefined ? Date.UTC(Number(year), Number(month), 0) : first;
  const text = isoDay(first);
  // A day that does not exist rolls over into another month.
  if (text !== (day === undefined ? `${year}-${month}-01` : word)) return null;
  return { first: text, last: isoDay(last) };
}

/** `days` after a date, or before it when negative. */
export function dayAfter(day: string, days: number): string {
  return isoDay(Date.parse(`${day}T00:00:00Z`) + days * MS_A_DAY);
}

const isoDay = (ms: number): string => new Date(ms).toISOString().slice(0, 10);
