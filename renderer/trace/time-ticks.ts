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
  const seconds = tick / TICKS_PER_SECOND;
  const unit = 10 ** decimals;
  const whole = Math.floor(seconds + 0.5 / unit);
  const fraction = decimals === 0 ? '' : (seconds % 1).toFixed(decimals).slice(1);
  if (seconds < 60) return `${seconds.toFixed(decimals)}\u00a0s`;
  const minutes = Math.floor(whole / 60) % 60;
  const hours = Math.floor(whole / 3600);
  const rest = `${String(whole % 60).padStart(2, '0')}${fraction}`;
  return hours === 0
    ? `${minutes}:${rest}`
    : `${hours}:${String(minutes).padStart(2, '0')}:${rest}`;
}
