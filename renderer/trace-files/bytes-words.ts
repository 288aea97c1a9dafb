const UNITS = ['bytes', 'kB', 'MB', 'GB', 'TB'] as const;

/** Bytes as people read them, in powers of a thousand: `831 bytes`, `1.4 MB`. */
export function bytesWords(bytes: number): string {
  let value = bytes;
  let unit = 0;
  while (value >= 999.5 && unit < UNITS.length - 1) {
    value /= 1000;
    unit += 1;
  }
  const digits = unit === 0 || value >= 99.5 ? 0 : value >= 9.95 ? 1 : 2;
  return `${value.toFixed(digits)}\u00a0${UNITS[unit]}`;
}
