/** A clock reading found in a cell. */
export interface ClockReading {
  /** Seconds: since 1970 when the cell has a date, since midnight when it has none. */
  readonly seconds: number;
  readonly hasDate: boolean;
  /** False for a date alone. */
  readonly hasTime: boolean;
  /** Whether the cell told the offset from UTC, so that summer time cannot move it. */
  readonly hasOffset: boolean;
  /** Smallest step that the cell can show, in seconds: 1, or a power of ten below. */
  readonly resolutionS: number;
}

const TIME = String.raw`(\d{1,3}):(\d{2})(?::(\d{2})(?:[.,:](\d{1,9}))?)?\s*([ap]\.?m\.?)?`;
const OFFSET = String.raw`\s*(z|utc|gmt|[+-]\d{2}:?\d{2}|[+-]\d{2})?`;
const CLOCK = new RegExp(`^[[(]?(?:(\\d+)[ .]+)?${TIME}[\\])]?$`, 'i');
const YEAR_FIRST = new RegExp(
  `^[[(]?(\\d{4})[-/.](\\d{1,2})[-/.](\\d{1,2})(?:[t ,_]+${TIME}${OFFSET})?[\\])]?$`,
  'i',
);
const COMPACT = new RegExp(
  `^(\\d{4})(\\d{2})(\\d{2})[t _-](\\d{2})(\\d{2})(\\d{2})(?:[.,](\\d{1,9}))?${OFFSET}$`,
  'i',
);
const YEAR_LAST = new RegExp(
  `^[[(]?(\\d{1,2})([-/.])(\\d{1,2})[-/.](\\d{2}|\\d{4})(?:[t ,_]+${TIME}${OFFSET})?[\\])]?$`,
  'i',
);
const MONTHS = 'jan feb mar apr may jun jul aug sep oct nov dec'.split(' ');
const MONTH = `(${MONTHS.join('|')})[a-z]*`;
const DAY_MONTH = new RegExp(
  `^(\\d{1,2})[ .-]+${MONTH}[ .,-]+(\\d{4}|\\d{2})(?:[t ,_]+${TIME}${OFFSET})?$`,
  'i',
);
const MONTH_DAY = new RegExp(
  `^(?:[a-z]{3,9},? )?${MONTH} +(\\d{1,2})(?:,? +(\\d{4}))?,? +${TIME}(?: +(\\d{4}))?$`,
  'i',
);
const MINUTES = /^(\d{1,3}):(\d{2})(?:[.,](\d{1,9}))?$/;

/**
 * Reads `13:05:09.25`, `1:05:09 PM`, `05:09.25` and `05:09` (minutes and seconds: a bench log
 * without seconds would tell nothing), `2031-04-01T13:05:09.250+02:00`,
 * `01.04.2031 13:05:09`, `4/1/2031 1:05:09 PM`, `01-Apr-2031 13:05:09` and dates alone; null for anything else. With the
 * year last, points mean day first and slashes month first unless the numbers say otherwise: only
 * differences of times are used, so a wrong guess shows at most at the end of a month.
 */
export function readClock(cell: string): ClockReading | null {
  const minutes = MINUTES.exec(cell);
  if (minutes !== null) {
    const [, m, s, fraction] = minutes;
    const start = Number(m) * 60;
    return clock(start, false, undefined, '0', '0', s, fraction, undefined);
  }
  const plain = CLOCK.exec(cell);
  if (plain !== null) {
    const [, days, h, m, s, fraction, half] = plain;
    const start = days === undefined ? 0 : Number(days) * 86_400;
    return clock(start, false, undefined, h!, m!, s, fraction, half);
  }
  const compact = COMPACT.exec(cell);
  if (compact !== null) {
    const [, year, month, day, h, m, s, fraction, offset] = compact;
    const start = dayStart(year!, month!, day!);
    return start === null ? null : clock(start, true, offset, h!, m!, s, fraction, undefined);
  }
  const first = YEAR_FIRST.exec(cell);
  if (first !== null) {
    const [, year, month, day, h, m, s, fraction, half, offset] = first;
    const start = dayStart(year!, month!, day!);
    return start === null ? null : clock(start, true, offset, h ?? '', m ?? '', s, fraction, half);
  }
  const last = YEAR_LAST.exec(cell);
  if (last === null) return withMonthName(cell);
  const [, one, mark, two, year, h, m, s, fraction, half, offset] = last;
  const dayFirst = Number(one) > 12 || (mark !== '/' && Number(two) <= 12);
  const full = year!.length === 2 ? `20${year}` : year!;
  const start = dayFirst ? dayStart(full, two!, one!) : dayStart(full, one!, two!);
  return start === null ? null : clock(start, true, offset, h ?? '', m ?? '', s, fraction, half);
}

function withMonthName(cell: string): ClockReading | null {
  const dayFirst = DAY_MONTH.exec(cell);
  if (dayFirst !== null) {
    const [, day, month, year, h, m, s, fraction, half, offset] = dayFirst;
    const full = year!.length === 2 ? `20${year}` : year!;
    const start = dayStart(full, monthNumber(month!), day!);
    return start === null ? null : clock(start, true, offset, h ?? '', m ?? '', s, fraction, half);
  }
  const monthFirst = MONTH_DAY.exec(cell);
  if (monthFirst === null) return null;
  const [, month, day, year, h, m, s, fraction, half, lateYear] = monthFirst;
  const start = dayStart(year ?? lateYear ?? '2000', monthNumber(month!), day!);
  return start === null ? null : clock(start, true, undefined, h!, m!, s, fraction, half);
}

function monthNumber(name: string): string {
  return String(MONTHS.indexOf(name.toLowerCase()) + 1);
}

function dayStart(year: string, month: string, day: string): number | null {
  const m = Number(month);
  const d = Number(day);
  if (m < 1 || m > 12 || d < 1 || d > 31) return null;
  return Date.UTC(Number(year), m - 1, d) / 1000;
}

function clock(
  start: number,
  hasDate: boolean,
  offset: string | undefined,
  h: string,
  m: string,
  s: string | undefined,
  fraction: string | undefined,
  half: string | undefined,
): ClockReading | null {
  let hours = Number(h);
  if (half !== undefined) {
    if (hours < 1 || hours > 12) return null;
    hours = (hours % 12) + (half[0]!.toLowerCase() === 'p' ? 12 : 0);
  }
  const minutes = Number(m);
  const wholeS = Number(s ?? '0');
  if (minutes > 59 || wholeS > 60 || (hasDate && hours > 24)) return null;
  const part = fraction === undefined ? 0 : Number(`0.${fraction}`);
  const seconds = start + hours * 3600 + minutes * 60 + wholeS - offsetSeconds(offset) + part;
  const resolutionS = fraction === undefined ? (s === undefined ? 60 : 1) : 10 ** -fraction.length;
  const hasTime = !(hasDate && h === '');
  return { seconds, hasDate, hasTime, hasOffset: offset !== undefined, resolutionS };
}

function offsetSeconds(offset: string | undefined): number {
  const match = /^([+-])(\d{2}):?(\d{2})?$/.exec(offset ?? '');
  if (match === null) return 0;
  const size = Number(match[2]) * 3600 + Number(match[3] ?? '0') * 60;
  return match[1] === '-' ? -size : size;
}
