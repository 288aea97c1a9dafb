import { NO_BREAK_SPACE, UNKNOWN } from './format.ts';

/** Seconds as a person says them: `0.4 s`, `14 s`, `2 min 05 s`, `1 h 02 min`. Null is a dash. */
export function formatDuration(seconds: number | null): string {
  if (seconds === null || !Number.isFinite(seconds)) return UNKNOWN;
  if (Math.abs(seconds) < 9.95) return `${tidy(seconds.toFixed(1))}${NO_BREAK_SPACE}s`;
  const whole = Math.round(seconds);
  if (whole < 60) return `${whole}${NO_BREAK_SPACE}s`;
  if (whole < 3600) return pair(Math.floor(whole / 60), 'min', whole % 60, 's');
  const minutes = Math.round(whole / 60);
  return pair(Math.floor(minutes / 60), 'h', minutes % 60, 'min');
}

function pair(large: number, largeUnit: string, small: number, smallUnit: string): string {
  const rest = String(small).padStart(2, '0');
  return [large, largeUnit, rest, smallUnit].join(NO_BREAK_SPACE);
}

function tidy(text: string): string {
  return text === '-0.0' ? '0.0' : text;
}
