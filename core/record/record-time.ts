const MONTHS = 'Jan Feb Mar Apr May Jun Jul Aug Sep Oct Nov Dec'.split(' ');

/** A moment in the shop's own time: pure arithmetic, so that the same record prints everywhere. */
export interface ShopClock {
  /** `24 Nov 2025, 14:03` */
  readonly dateTime: (atMs: number) => string;
  /** `24 Nov 2025` */
  readonly date: (atMs: number) => string;
  /** `UTC+01:00` */
  readonly zone: string;
}

/** The clock of a shop `utcOffsetMin` minutes east of UTC. Times it is given are UTC milliseconds. */
export function shopClock(utcOffsetMin: number): ShopClock {
  const local = (atMs: number) => new Date(atMs + utcOffsetMin * 60_000);
  const date = (atMs: number) => {
    const at = local(atMs);
    return `${at.getUTCDate()}\u00a0${MONTHS[at.getUTCMonth()]}\u00a0${at.getUTCFullYear()}`;
  };
  return {
    date,
    dateTime: (atMs) => {
      const at = local(atMs);
      return `${date(atMs)}, ${two(at.getUTCHours())}:${two(at.getUTCMinutes())}`;
    },
    zone: zoneName(utcOffsetMin),
  };
}

function zoneName(utcOffsetMin: number): string {
  if (utcOffsetMin === 0) return 'UTC';
  const minutes = Math.abs(utcOffsetMin);
  const sign = utcOffsetMin < 0 ? '\u2212' : '+';
  return `UTC${sign}${two(Math.floor(minutes / 60))}:${two(minutes % 60)}`;
}

function two(value: number): string {
  return String(value).padStart(2, '0');
}
