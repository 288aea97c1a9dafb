import { TICKS_PER_SECOND } from '../../core/trace/sample.ts';
import type { TickRange } from './trace-view.ts';

const STEPS_S = [
  0.05, 0.1, 0.2, 0.5, 1, 2, 5, 10, 20, 30, 60, 120, 300, 600, 1200, 1800, 3600, 7200,
];

/** Round times inside a stretch, at most `most` of them, in ticks. */
export function timeTicks(range: TickRange, most: number): number[] {
  const spanS = (range.toTick - range.fromTick) / TICKS_PER_SECOND;
  const stepS = STEPS_S.find((step) => spanS / step <= most) ?? 14_400;
  const step = stepS * TICKS_PER_SECOND;
  const found: number[] = [];
  for (let tick = Math.ceil(range.fromTick / step) * step; tick <= range.toTick; tick += step) {
    found.push(tick);
  }
  return found;
}

/** A time of a run as on a stopwatch: `4.2 s`, `1:05`, `2:03:10`. */
export function clockWords(tick: number, decimals = 0): string {
  // Rounded as one number first, or 59.99 s would read 60 beside a minute.
  const unit = 10 ** decimals;
  const rounded = Math.round((tick / TICKS_PER_SECOND) * unit) / unit;
  if (rounded < 60) return `${rounded.toFixed(decimals)}\u00a0s`;
  const hours = Math.floor(rounded / 3600);
  const minutes = Math.floor(rounded / 60) % 60;
  const width = decimals === 0 ? 2 : 3 + decimals;
  const seconds = (rounded % 60).toFixed(decimals).padStart(width, '0');
  return hours === 0
    ? `${minutes}:${seconds}`
    : `${hours}:${String(minutes).padStart(2, '0')}:${seconds}`;
}
